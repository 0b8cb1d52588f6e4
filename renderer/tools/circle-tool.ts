import { fitCircle } from '../../core/geometry/fit-circle.ts';
import type { CircleShape, PicturePoint } from '../../core/model/mark.ts';
import { free } from '../../core/shapes/free.ts';
import { SMALLEST_SHAPE, apart } from '../../core/shapes/places.ts';
import { drawing, drew, going, idle, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

type CircleState = Extract<ToolState, { tool: 'circle' }>;
type Places = readonly PicturePoint[];

/** The circle through three places, or nearest to more; null for fewer, or places on a line. */
export function circleThroughPlaces(places: Places, id: string): CircleShape | null {
  const fit = fitCircle(places);
  return fit === null ? null : { kind: 'circle', id, centre: fit.centre, radius: fit.radius, rim: places };
}

function circleFromMiddle(centre: PicturePoint, edge: PicturePoint, id: string): CircleShape | null {
  const radius = apart(centre, edge);
  return radius < SMALLEST_SHAPE ? null : { kind: 'circle', id, centre, radius };
}

/**
 * A drag goes from the middle of the circle to its edge. Clicks are places on the edge: with three there is a circle, each
 * one more makes it surer. `dragging`: the first press is held. `collecting`: places are clicked. `pressing`: the next
 * place is held and is taken on release. Enter, or a second click on the last place, accepts; Backspace goes back one.
 */
export function stepCircle(state: CircleState, event: GestureEvent, scene: ToolScene): ToolStep {
  switch (state.name) {
    case 'idle':
      if (event.type !== 'down') return unused(state, scene);
      return going({ tool: 'circle', name: 'dragging', places: [event.at] }, null);
    case 'dragging':
      return stepDragging(state.places, event, scene);
    case 'collecting':
    case 'pressing':
      return stepCollecting(state, event, scene);
  }
}

function stepDragging(places: Places, event: GestureEvent, scene: ToolScene): ToolStep {
  const state = { tool: 'circle', name: 'dragging', places } as const;
  const [centre] = places;
  if (event.type === 'key' || event.type === 'down' || centre === undefined) return going(state, null);
  const isClick = apart(centre, event.at) < scene.reach;
  const circle = isClick ? null : circleFromMiddle(centre, event.at, scene.newId);
  if (event.type === 'move') return drawing(state, circle, scene);
  return isClick ? collecting(places, null, scene) : drew('circle', circle, scene);
}

function stepCollecting(
  state: Extract<CircleState, { name: 'collecting' | 'pressing' }>,
  event: GestureEvent,
  scene: ToolScene,
): ToolStep {
  const { places } = state;
  const last = places.at(-1);
  if (event.type === 'key') {
    if (event.key === 'Enter') return accepted(places, scene);
    if (event.key !== 'Backspace') return collecting(places, null, scene);
    const left = places.slice(0, -1);
    return left.length === 0 ? going(idle('circle'), null) : collecting(left, null, scene);
  }
  if (event.type === 'down') return { ...collecting(places, event.at, scene), state: { ...state, name: 'pressing' } };
  if (event.type === 'move') return { ...collecting(places, event.at, scene), state };
  if (state.name === 'collecting') return collecting(places, event.at, scene);
  const again = last !== undefined && apart(last, event.at) < scene.reach;
  if (again) return places.length >= 3 ? accepted(places, scene) : collecting(places, null, scene);
  return collecting([...places, event.at], null, scene);
}

/** Shows the circle so far, with the place under the pointer where there is one; before there is one, the places. */
function collecting(places: Places, at: PicturePoint | null, scene: ToolScene): ToolStep {
  const all = at === null ? places : [...places, at];
  const circle = circleThroughPlaces(all, scene.newId);
  return drawing({ tool: 'circle', name: 'collecting', places }, circle ?? free.stroke(all, scene.newId), scene);
}

function accepted(places: Places, scene: ToolScene): ToolStep {
  const circle = circleThroughPlaces(places, scene.newId);
  return circle === null ? collecting(places, null, scene) : drew('circle', circle, scene);
}
