import { memo } from 'react';
import { app } from '../state/app.ts';
import { benchClip, keptMarks } from '../state/bench-actions.ts';
import { useStore } from '../state/store.ts';
import { targetExists } from '../tools/target.ts';
import { CopyShapesHere } from './copy-shapes.tsx';
import { GuidedRun } from './guided-run.tsx';
import { PathPanel } from './path-panel.tsx';
import { SelectedMark } from './selected-mark.tsx';

/** What is in hand: the selected mark, or the body point that comes next. */
export const MarkPanel = memo(function MarkPanel() {
  const marks = useStore(app, keptMarksOnce);
  const selected = useStore(app, (state) => state.bench?.selected ?? null);
  const tool = useStore(app, (state) => state.bench?.tool.tool);
  const clip = useStore(app, benchClip);
  if (marks === null || clip === null) return null;
  return (
    <>
      {tool === 'points' ? <GuidedRun clip={clip} marks={marks} /> : null}
      {tool === 'path' ? <PathPanel clip={clip} marks={marks} /> : null}
      {selected !== null && targetExists(marks, selected) ? (
        <SelectedMark clip={clip} marks={marks} selected={selected} />
      ) : null}
      {tool === 'points' || tool === 'path' || selected !== null ? null : <CopyShapesHere clip={clip} marks={marks} />}
    </>
  );
});

/** `keptMarks` with the same value for the same state, as a store's part must be. */
let last: { state: ReturnType<typeof app.get>; marks: ReturnType<typeof keptMarks> } | null = null;
function keptMarksOnce(state: ReturnType<typeof app.get>): ReturnType<typeof keptMarks> {
  if (last?.state !== state) last = { state, marks: keptMarks(state) };
  return last.marks;
}
