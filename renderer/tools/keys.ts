import { movedMarks, withoutTarget } from './change-marks.ts';
import type { Shift } from './change-marks.ts';
import type { Target } from './target.ts';
import { targetExists } from './target.ts';
import { unused } from './tool.ts';
import type { ToolScene, ToolState, ToolStep } from './tool.ts';

/** One press of an arrow key, in picture pixels; with Shift the fine step. */
export const NUDGE = 1;
export const FINE_NUDGE = 0.1;

const DIRECTIONS: Readonly<Record<string, Shift>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** A nudge of a whole shape by one handle would bend it: by keys the handle moves only if a handle was taken. */
function nudge(target: Target, direction: Shift, shift: boolean, scene: ToolScene) {
  const step = shift ? FINE_NUDGE : NUDGE;
  return movedMarks(scene.marks, target, { x: direction.x * step, y: direction.y * step });
}

/** What keys do to the selected mark in every tool: arrows nudge, Delete and Backspace remove, Enter lets go. */
export function stepSelectedKey(state: ToolState, key: string, shift: boolean, scene: ToolScene): ToolStep {
  const target = scene.selected;
  if (target === null || !targetExists(scene.marks, target)) return unused(state, scene);
  const direction = DIRECTIONS[key];
  if (direction !== undefined) {
    return { state, draft: null, commit: nudge(target, direction, shift, scene), selected: target, used: true };
  }
  if (key === 'Delete' || key === 'Backspace') {
    return { state, draft: null, commit: withoutTarget(scene.marks, target), selected: null, used: true };
  }
  if (key === 'Enter') return { state, draft: null, commit: null, selected: null, used: true };
  return unused(state, scene);
}
