import type { PicturePoint, Shape } from '../../core/model/mark.ts';
import type { DrawnByPlaces } from '../../core/shapes/kind.ts';
import { apart, SMALLEST_SHAPE } from '../../core/shapes/places.ts';
import type { KindBy } from '../../core/shapes/shapes.ts';
import { drawing, drew, going, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/**
 * Draws a shape through a fixed number of places by dragging, by clicking place after place, or by both mixed. `dragging`:
 * the first place is pressed and held. `following`: the button is up and the next place follows the pointer. `closing`:
 * pressed again; the place is taken on release. A first release within reach of its press was a click, so that a trembling
 * hand can click.
 */
export function stepDrawing(
  state: Extract<ToolState, { tool: KindBy<'drawn'> }>,
  event: GestureEvent,
  scene: ToolScene,
  kind: DrawnByPlaces<Shape>,
): ToolStep {
  const { newId } = scene;
  /** With a draft through the places so far and the one under the pointer. */
  const goOn = (next: ToolState & { places: readonly PicturePoint[] }, at: PicturePoint): ToolStep => {
    const all = [...next.places, at];
    return drawing(next, kind.through(all, newId) ?? kind.draft?.(all, newId) ?? null, scene);
  };
  if (state.name === 'idle') {
    if (event.type !== 'down') return unused(state, scene);
    return goOn({ tool: state.tool, name: 'dragging', places: [event.at] }, event.at);
  }
  if (event.type === 'key') return going(state, null);
  const following = { ...state, name: 'following' } as const;
  if (event.type === 'down' && state.name !== 'dragging') return goOn({ ...state, name: 'closing' }, event.at);
  if (event.type !== 'up' || state.name === 'following') return goOn(state, event.at);
  const last = state.places.at(-1) ?? event.at;
  const nearest = state.name === 'dragging' ? Math.max(scene.reach, SMALLEST_SHAPE) : SMALLEST_SHAPE;
  if (apart(last, event.at) < nearest) return goOn(following, event.at);
  const places = [...state.places, event.at];
  if (places.length < kind.places) return goOn({ ...following, places }, event.at);
  return drew(state.tool, kind.through(places, newId), scene);
}
