import type { PicturePoint } from '../../core/model/mark.ts';
import { movedMarks } from './change-marks.ts';
import type { Target } from './target.ts';
import { cancelled, idle, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

type Holding = Extract<ToolState, { name: 'holding' }>;

/** Takes hold of a mark; the move tool and the points tool drag alike. */
export function takeHold(tool: 'move' | 'points', target: Target, at: PicturePoint): ToolStep {
  return {
    state: { tool, name: 'holding', target, from: at },
    draft: null,
    commit: null,
    selected: target,
    used: true,
  };
}

/**
 * While a mark is held it follows the pointer by the way the pointer went since the press, so that it never jumps. Let go
 * where it was taken, nothing is kept: a click only selects.
 */
export function stepHolding(state: Holding, event: GestureEvent, scene: ToolScene): ToolStep {
  if (event.type === 'cancel') return cancelled(state, scene);
  if (event.type === 'key') return { ...unused(state, scene), used: true };
  const by = { x: event.at.x - state.from.x, y: event.at.y - state.from.y };
  const still = by.x === 0 && by.y === 0;
  const moved = still ? null : movedMarks(scene.marks, state.target, by);
  if (event.type === 'move') return { state, draft: moved, commit: null, selected: state.target, used: true };
  if (event.type === 'down') return { ...unused(state, scene), used: true };
  return { state: idle(state.tool), draft: null, commit: moved, selected: state.target, used: true };
}
