import type { PicturePoint } from '../../core/model/mark.ts';
import { movedMarks } from './change-marks.ts';
import type { Target } from './target.ts';
import { going, idle } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

type Holding = Extract<ToolState, { name: 'holding' }>;

/** Takes hold of a mark; the move tool and the points tool drag alike. */
export function takeHold(tool: 'move' | 'points', target: Target, at: PicturePoint): ToolStep {
  return going({ tool, name: 'holding', target, from: at }, null, target);
}

/**
 * While a mark is held it follows the pointer by the way the pointer went since the press, so that it never jumps. Let go
 * where it was taken, nothing is kept: a click only selects.
 */
export function stepHolding(state: Holding, event: GestureEvent, scene: ToolScene): ToolStep {
  if (event.type === 'key' || event.type === 'down') return going(state, null, scene.selected);
  const by = { x: event.at.x - state.from.x, y: event.at.y - state.from.y };
  const still = by.x === 0 && by.y === 0;
  const moved = still ? null : movedMarks(scene.marks, state.target, by);
  if (event.type === 'move') return going(state, moved, state.target);
  return { ...going(idle(state.tool), null, state.target), commit: moved };
}
