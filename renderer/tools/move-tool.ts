import { stepHolding, takeHold } from './held.ts';
import { pick } from './pick.ts';
import { awayFrom, ringWithin, takeRing } from './points-tool.ts';
import { going, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/**
 * Selects and drags what is there; a proposed point too, where its ring shows: a drag puts it right at once, without the tool
 * for points in hand. A press on nothing lets the selection go.
 */
export function stepMove(state: Extract<ToolState, { tool: 'move' }>, event: GestureEvent, scene: ToolScene): ToolStep {
  if (state.name === 'holding') return stepHolding(state, event, scene);
  if (event.type !== 'down') return unused(state, scene);
  const placed = pick({ ...scene.marks, shapes: [] }, event.at, scene.reach);
  const rival = awayFrom(placed, scene.marks, event.at);
  const ring = ringWithin(scene, scene.offered ?? {}, event.at, rival);
  if (ring !== null) return takeRing(scene, ring, ring, event.at);
  const target = pick(scene.marks, event.at, scene.reach);
  return target === null ? going(state, null) : takeHold('move', target, event.at);
}
