import { memo } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import type { FrameMarks, GroundShape } from '../../core/model/mark.ts';
import { app } from '../shell/state/app-state.ts';
import { benchClip, keptMarks } from './state/bench-actions.ts';
import { useStore } from '../shell/state/store.ts';
import { targetExists } from '../tools/target.ts';
import type { Target } from '../tools/target.ts';
import type { ToolName } from '../tools/tool.ts';
import { CopyShapesHere } from './marks/copy-shapes.tsx';
import { GroundCard } from './marks/ground-card.tsx';
import { GroundPanel } from './marks/ground-panel.tsx';
import { GuidedRun } from './marks/guided-run.tsx';
import { PathPanel } from './marks/path-panel.tsx';
import { SelectedMark } from './marks/selected-mark.tsx';

/** What is in hand: the selected mark, or the body point that comes next. */
export const MarkPanel = memo(function MarkPanel() {
  const marks = useStore(app, keptMarksOnce);
  const selected = useStore(app, (state) => state.bench?.selected ?? null);
  const tool = useStore(app, (state) => state.bench?.tool.tool);
  const clip = useStore(app, benchClip);
  if (marks === null || clip === null) return null;
  const ground = selectedGround(clip, selected);
  return (
    <>
      {tool === 'points' ? <GuidedRun clip={clip} marks={marks} /> : null}
      {tool === 'path' ? <PathPanel clip={clip} marks={marks} /> : null}
      {tool === 'ground' ? <GroundPanel clip={clip} marks={marks} /> : null}
      {ground !== null ? <GroundCard clip={clip} home={ground.home} shape={ground.shape} /> : null}
      {ground === null && selected !== null && targetExists(marks, selected) ? (
        <SelectedMark clip={clip} marks={marks} selected={selected} />
      ) : null}
      {hasPanel(tool) || selected !== null ? null : <CopyShapesHere clip={clip} marks={marks} />}
    </>
  );
});

function hasPanel(tool: ToolName | undefined): boolean {
  return tool === 'points' || tool === 'path' || tool === 'ground';
}

/** Ground marks are selected by drawing them too, when those that they took the place of are kept with another frame. */
function selectedGround(clip: BookClip, selected: Target | null): { home: FrameMarks; shape: GroundShape } | null {
  if (selected?.kind !== 'shape') return null;
  for (const home of clip.marks)
    for (const shape of home.shapes) if (shape.kind === 'ground' && shape.id === selected.id) return { home, shape };
  return null;
}

/** `keptMarks` with the same value for the same state, as a store's part must be. */
let last: { state: ReturnType<typeof app.get>; marks: ReturnType<typeof keptMarks> } | null = null;
function keptMarksOnce(state: ReturnType<typeof app.get>): ReturnType<typeof keptMarks> {
  if (last?.state !== state) last = { state, marks: keptMarks(state) };
  return last.marks;
}
