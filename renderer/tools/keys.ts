import { withHidden, withoutTarget } from './change-marks.ts';
import { targetExists } from './target.ts';
import { going, unused } from './tool.ts';
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
    return { ...going(state, null), commit: withoutTarget(scene.marks, target) };
  }
  if (key === 'Enter') return going(state, null);
  if (key.toLowerCase() === HIDDEN_KEY && target.kind === 'point') {
    const hidden = scene.marks.points[target.point]?.hidden !== true;
    return { ...going(state, null, target), commit: withHidden(scene.marks, target.point, hidden) };
  }
  return unused(state, scene);
}
