import type { FrameMarks, PicturePoint } from '../../../core/model/mark.ts';
import type { Target } from '../../tools/target.ts';
import { pick } from '../../tools/pick.ts';
import { stepTool } from '../../tools/step-tool.ts';
import { idle } from '../../tools/tool.ts';
import type { ToolEvent, ToolState } from '../../tools/tool.ts';
import { createStore } from '../../shell/state/store.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';

/** A mark that is dragged in a cell of the sheet. */
export interface CellGesture {
  readonly clipId: string;
  /** As kept. */
  readonly marks: FrameMarks;
  readonly state: ToolState;
  readonly selected: Target | null;
  /** What the cell and its readings show meanwhile. */
  readonly draft: FrameMarks | null;
}

/** At most one: there is one pointer that drags. */
export const cellGesture = createStore<CellGesture | null>(null);

/** Whether something can be taken there: a body point, or a handle or line of a shape of this very frame. */
export function canTake(marks: FrameMarks, at: PicturePoint, reach: number): boolean {
  return pick(marks, at, reach) !== null;
}

/** Takes what lies within `reach` picture pixels; answers whether there was anything. */
export function takeInCell(clipId: string, marks: FrameMarks, at: PicturePoint, reach: number): boolean {
  if (!canTake(marks, at, reach)) return false;
  cellGesture.update(() => ({ clipId, marks, state: idle('move'), selected: null, draft: null }));
  return send({ type: 'down', at }, reach);
}

export function moveInCell(at: PicturePoint, reach: number): void {
  send({ type: 'move', at }, reach);
}

/** Lets go: what was moved is kept, as one edit. */
export function letGoInCell(at: PicturePoint, reach: number): void {
  send({ type: 'up', at }, reach);
  cellGesture.update(() => null);
}

/** Nothing is kept. */
export function cancelInCell(): void {
  cellGesture.update(() => null);
}

/** In a cell nothing is placed anew. */
const NO_RUN = { run: [], next: null, starts: {} };

function send(event: ToolEvent, reach: number): boolean {
  const gesture = cellGesture.get();
  if (gesture === null) return false;
  const { marks, selected } = gesture;
  const path = { subject: 'clubhead', home: marks, shape: null, pts: marks.frame.pts } as const;
  const ground = { plan: null, home: marks, shape: null };
  const scene = { marks, selected, reach, newId: '', ...NO_RUN, centre: { x: 0, y: 0 }, path, ground };
  const step = stepTool(gesture.state, event, scene);
  if (step.commit !== null) keepMarks(gesture.clipId, step.commit);
  cellGesture.update(() => ({ ...gesture, state: step.state, selected: step.selected, draft: step.draft }));
  return step.used;
}
