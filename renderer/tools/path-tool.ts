import type { FrameMarks, PathPlace, PathShape, PathSubject, PicturePoint } from '../../core/model/mark.ts';
import { apart, shifted } from '../../core/shapes/places.ts';
import { going, idle, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** The path in hand, as it is kept, and the frame on the bench. */
export interface PathScene {
  readonly subject: PathSubject;
  /** Marks of the frame that the path is kept with; of this frame while there is no path yet. */
  readonly home: FrameMarks;
  readonly shape: PathShape | null;
  /** Time stamp of the frame on the bench. */
  readonly pts: number;
  /** Where it was followed to on this frame, and nobody has said so yet; left out: nowhere. */
  readonly proposed?: PathPlace | undefined;
}

/** The path's place on the frame on the bench, or null. */
export function placeOnPath({ shape, pts }: PathScene): PathPlace | null {
  return shape?.places.find((place) => place.pts === pts) ?? null;
}

/**
 * Follows one thing frame by frame. `following`: its place goes with the pointer until it is let go. A press puts its place
 * on this frame, and on release the next frame comes. A press near the place that is there takes that one, and the frame
 * stays. Enter accepts the place that is proposed on this frame, and the next frame comes. Backspace goes back one frame, Delete
 * takes the place on this frame away.
 */
export function stepPath(state: Extract<ToolState, { tool: 'path' }>, event: GestureEvent, scene: ToolScene): ToolStep {
  const { path } = scene;
  if (state.name === 'idle') {
    if (event.type === 'key') return stepKey(state, event.key, scene);
    if (event.type !== 'down') return unused(state, scene);
    const here = placeOnPath(path);
    const isHeld = here !== null && apart(here, event.at) <= scene.reach;
    const by = isHeld ? { x: here.x - event.at.x, y: here.y - event.at.y } : { x: 0, y: 0 };
    return following({ tool: 'path', name: 'following', by, isNew: here === null }, event.at, scene);
  }
  if (event.type === 'key' || event.type === 'down') return going(state, null, scene.selected);
  if (event.type === 'move') return following(state, event.at, scene);
  const commit = withPlace(path, shifted(event.at, state.by), scene.newId);
  return { ...going(idle('path'), null), commit, ...(state.isNew ? { goBy: 1 } : {}) };
}

function stepKey(state: ToolState, key: string, scene: ToolScene): ToolStep {
  if (key === 'Backspace') return { ...going(state, null, scene.selected), goBy: -1 };
  if (key === 'Enter' && scene.path.proposed !== undefined)
    return { ...going(state, null), commit: withPlaces(scene.path, [scene.path.proposed], scene.newId), goBy: 1 };
  if (key !== 'Delete' || placeOnPath(scene.path) === null) return unused(state, scene);
  return { ...going(state, null), commit: withoutPlace(scene.path) };
}

function following(
  state: Extract<ToolState, { tool: 'path'; name: 'following' }>,
  at: PicturePoint,
  scene: ToolScene,
): ToolStep {
  return going(state, withPlace(scene.path, shifted(at, state.by), scene.newId));
}

/** The marks that keep the path, with its place on this frame put at `at`; a path that is new gets `id`. */
export function withPlace(path: PathScene, at: PicturePoint, id: string): FrameMarks {
  return withPlaces(path, [{ x: at.x, y: at.y, pts: path.pts }], id);
}

/** The same with places of several frames. */
export function withPlaces({ home, shape, subject }: PathScene, added: readonly PathPlace[], id: string): FrameMarks {
  const others = (shape?.places ?? []).filter((place) => added.every(({ pts }) => pts !== place.pts));
  const places = [...others, ...added].toSorted((one, other) => one.pts - other.pts);
  if (shape === null) return { ...home, shapes: [...home.shapes, { kind: 'path', id, subject, places }] };
  return { ...home, shapes: home.shapes.map((each) => (each.id === shape.id ? { ...shape, places } : each)) };
}

/** The same without the place on this frame; a path without places goes. */
export function withoutPlace({ home, shape, pts }: PathScene): FrameMarks {
  if (shape === null) return home;
  const places = shape.places.filter((place) => place.pts !== pts);
  const shapes =
    places.length === 0
      ? home.shapes.filter((each) => each.id !== shape.id)
      : home.shapes.map((each) => (each.id === shape.id ? { ...shape, places } : each));
  return { ...home, shapes };
}
