import { withHidden, withoutTarget } from './change-marks.ts';
import { targetExists } from './target.ts';
import { unused } from './tool.ts';
import type { ToolScene, ToolState, ToolStep } from './tool.ts';

/** Says of the selected body point that its place is a guess. */
export const HIDDEN_KEY = 'h';

/**
 * What keys do to the selected mark in every tool: Delete and Backspace remove, Enter lets go, H says of a body point that
 * it is hidden, or that it is not.
 */
export function stepSelectedKey(state: ToolState, key: string, scene: ToolScene): ToolStep {
  const target = scene.selected;
  if (target === null || !targetExists(scene.marks, target)) return unused(state, scene);
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
