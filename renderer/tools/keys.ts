import { movedMarks, withHidden, withoutTarget } from './change-marks.ts';
import type { Shift } from './change-marks.ts';
import { targetExists } from './target.ts';
import { unused } from './tool.ts';
import type { ToolScene, ToolState, ToolStep } from './tool.ts';

/** One press of an arrow key, in picture pixels; with Shift the fine step. */
export const NUDGE = 1;
export const FINE_NUDGE = 0.1;
/** Says of the selected body point that its place is a guess. */
export const HIDDEN_KEY = 'h';

const DIRECTIONS: Readonly<Record<string, Shift>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** The way an arrow key moves a mark, or null for other keys. */
export function nudgeOf(key: string, shift: boolean): Shift | null {
  const direction = DIRECTIONS[key];
  const step = shift ? FINE_NUDGE : NUDGE;
  return direction === undefined ? null : { x: direction.x * step, y: direction.y * step };
}

/**
 * What keys do to the selected mark in every tool: arrows nudge, Delete and Backspace remove, Enter lets go, H says of a
 * body point that it is hidden, or that it is not.
 */
export function stepSelectedKey(state: ToolState, key: string, shift: boolean, scene: ToolScene): ToolStep {
  const target = scene.selected;
  if (target === null || !targetExists(scene.marks, target)) return unused(state, scene);
  // By keys a handle moves only where a handle was taken: moving a whole shape by one of its ends would bend it.
  const by = nudgeOf(key, shift);
  if (by !== null)
    return { state, draft: null, commit: movedMarks(scene.marks, target, by), selected: target, used: true };
  if (key === 'Delete' || key === 'Backspace') {
    return { state, draft: null, commit: withoutTarget(scene.marks, target), selected: null, used: true };
  }
  if (key === 'Enter') return { state, draft: null, commit: null, selected: null, used: true };
  if (key.toLowerCase() === HIDDEN_KEY && target.kind === 'point') {
    const hidden = scene.marks.points[target.point]?.hidden !== true;
    return { state, draft: null, commit: withHidden(scene.marks, target.point, hidden), selected: target, used: true };
  }
  return unused(state, scene);
}
