import type { FreeShape, PicturePoint } from '../../core/model/mark.ts';
import { withNewShape } from './change-marks.ts';
import { SMALLEST_SHAPE, apart } from '../../core/shapes/places.ts';
import { stepSelectedKey } from './keys.ts';
import { cancelled, idle, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** Places nearer than this part of the reach are one place: what lies between is the trembling of the hand. */
const SPACING = 0.25;

/** Follows the pointer while it is pressed. `drawing`: it is. A press without a way is a slip and is not kept. */
export function stepFree(state: Extract<ToolState, { tool: 'free' }>, event: GestureEvent, scene: ToolScene): ToolStep {
  if (event.type === 'cancel') return cancelled(state, scene);
  if (state.name === 'idle') {
    if (event.type === 'key') return stepSelectedKey(state, event.key, scene);
    if (event.type !== 'down') return unused(state, scene);
    return drawing([event.at], scene);
  }
  if (event.type === 'key' || event.type === 'down') return drawing(state.places, scene);
  const last = state.places.at(-1);
  const far = last === undefined || apart(last, event.at) >= Math.max(SMALLEST_SHAPE, SPACING * scene.reach);
  const places = far ? [...state.places, event.at] : state.places;
  if (event.type === 'move') return drawing(places, scene);
  const shape = freeThrough(places, scene.newId);
  if (shape === null) return { state: idle('free'), draft: null, commit: null, selected: null, used: true };
  const selected = { kind: 'shape', id: shape.id, handle: null } as const;
  return { state: idle('free'), draft: null, commit: withNewShape(scene.marks, shape), selected, used: true };
}

function freeThrough(places: readonly PicturePoint[], id: string): FreeShape | null {
  return places.length < 2 ? null : { kind: 'free', id, places };
}

function drawing(places: readonly PicturePoint[], scene: ToolScene): ToolStep {
  const shape = freeThrough(places, scene.newId);
  const draft = shape === null ? null : withNewShape(scene.marks, shape);
  return { state: { tool: 'free', name: 'drawing', places }, draft, commit: null, selected: null, used: true };
}
