import type { PicturePoint, Shape } from '../../core/model/mark.ts';
import type { DrawnByStroke } from '../../core/shapes/kind.ts';
import { SMALLEST_SHAPE, apart } from '../../core/shapes/places.ts';
import type { KindBy } from '../../core/shapes/shapes.ts';
import { drawing, drew, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** Places nearer than this part of the reach are one place: what lies between is the trembling of the hand. */
const SPACING = 0.25;

/** Follows the pointer while it is pressed. `drawing`: it is. A press without a way is a slip and is not kept. */
export function stepStroke(
  state: Extract<ToolState, { tool: KindBy<'stroke'> }>,
  event: GestureEvent,
  scene: ToolScene,
  through: DrawnByStroke<Shape>,
): ToolStep {
  const { tool } = state;
  const goOn = (places: readonly PicturePoint[]) =>
    drawing({ tool, name: 'drawing', places }, through(places, scene.newId), scene);
  if (state.name === 'idle') return event.type === 'down' ? goOn([event.at]) : unused(state, scene);
  if (event.type === 'key' || event.type === 'down') return goOn(state.places);
  const last = state.places.at(-1);
  const far = last === undefined || apart(last, event.at) >= Math.max(SMALLEST_SHAPE, SPACING * scene.reach);
  const places = far ? [...state.places, event.at] : state.places;
  return event.type === 'move' ? goOn(places) : drew(tool, through(places, scene.newId), scene);
}
