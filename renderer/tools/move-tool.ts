import { stepHolding, takeHold } from './held.ts';
import { pick } from './pick.ts';
import { going, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** Selects and drags what is there. A press on nothing lets the selection go. */
export function stepMove(state: Extract<ToolState, { tool: 'move' }>, event: GestureEvent, scene: ToolScene): ToolStep {
  if (state.name === 'holding') return stepHolding(state, event, scene);
  if (event.type !== 'down') return unused(state, scene);
  const target = pick(scene.marks, event.at, scene.reach);
  return target === null ? going(state, null) : takeHold('move', target, event.at);
}
