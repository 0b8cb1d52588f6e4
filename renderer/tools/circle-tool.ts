import { fitCircle } from '../../core/geometry/fit-circle.ts';
import type { CircleShape, FrameMarks, PicturePoint, Shape } from '../../core/model/mark.ts';
import { withNewShape } from './change-marks.ts';
import { SMALLEST_SHAPE, apart } from '../../core/shapes/places.ts';
import { stepSelectedKey } from './keys.ts';
import { cancelled, idle, unused } from './tool.ts';
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
  if (event.type === 'cancel') return cancelled(state, scene);
  switch (state.name) {
    case 'idle':
      if (event.type === 'key') return stepSelectedKey(state, event.key, scene);
      if (event.type !== 'down') return unused(state, scene);
      return going({ tool: 'circle', name: 'dragging', places: [event.at] }, null);
    case 'dragging':
      return stepDragging(state.places, event, scene);
    case 'collecting':
    case 'pressing':
      return stepCollecting(state, event, scene);
  }
}

function stepDragging(places: Places, event: Exclude<GestureEvent, { type: 'cancel' }>, scene: ToolScene): ToolStep {
  const state = { tool: 'circle', name: 'dragging', places } as const;
  const [centre] = places;
  if (event.type === 'key' || event.type === 'down' || centre === undefined) return going(state, null);
  const isClick = apart(centre, event.at) < scene.reach;
  const circle = isClick ? null : circleFromMiddle(centre, event.at, scene.newId);
  if (event.type === 'move') return going(state, drawnWith(scene.marks, circle));
  return isClick ? collecting(places, null, scene) : kept(circle, scene);
}

function stepCollecting(
  state: Extract<CircleState, { name: 'collecting' | 'pressing' }>,
  event: Exclude<GestureEvent, { type: 'cancel' }>,
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
  const shape: Shape | null =
    circleThroughPlaces(all, scene.newId) ?? (all.length < 2 ? null : { kind: 'free', id: scene.newId, places: all });
  return going({ tool: 'circle', name: 'collecting', places }, drawnWith(scene.marks, shape));
}

function accepted(places: Places, scene: ToolScene): ToolStep {
  const circle = circleThroughPlaces(places, scene.newId);
  return circle === null ? collecting(places, null, scene) : kept(circle, scene);
}

function kept(shape: CircleShape | null, scene: ToolScene): ToolStep {
  if (shape === null) return going(idle('circle'), null);
  const selected = { kind: 'shape', id: shape.id, handle: null } as const;
  return { state: idle('circle'), draft: null, commit: withNewShape(scene.marks, shape), selected, used: true };
}

function drawnWith(marks: FrameMarks, shape: Shape | null): FrameMarks | null {
  return shape === null ? null : withNewShape(marks, shape);
}

function going(state: ToolState, draft: FrameMarks | null): ToolStep {
  return { state, draft, commit: null, selected: null, used: true };
}
