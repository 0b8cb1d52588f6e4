import type { PicturePoint, Shape } from '../../core/model/mark.ts';
import type { DrawnByPlaces } from '../../core/shapes/kind.ts';
import { apart, SMALLEST_SHAPE } from '../../core/shapes/places.ts';
import { SHAPES } from '../../core/shapes/shapes.ts';
import type { DrawnKind } from '../../core/shapes/shapes.ts';
import { withNewShape } from './change-marks.ts';
import { stepSelectedKey } from './keys.ts';
import { cancelled, idle, unused } from './tool.ts';
import type { GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** What to show while the next place follows the pointer. */
function draftThrough(tool: DrawnKind, places: readonly PicturePoint[], { marks, newId }: ToolScene) {
  const drawn: DrawnByPlaces<Shape> = SHAPES[tool].drawn;
  const shape = drawn.through(places, newId) ?? drawn.draft?.(places, newId) ?? null;
  return shape === null ? null : withNewShape(marks, shape);
}

/**
 * Draws a shape through a fixed number of places by dragging, by clicking place after place, or by both mixed. `dragging`: the first place is pressed and held.
 * `following`: the button is up and the next place follows the pointer. `closing`: pressed again; the place is taken on
 * release. A first release within reach of its press was a click, so that a trembling hand can click.
 */
export function stepDrawing(
  state: Extract<ToolState, { tool: DrawnKind }>,
  event: GestureEvent,
  scene: ToolScene,
): ToolStep {
  if (event.type === 'cancel') return cancelled(state, scene);
  if (state.name === 'idle') {
    if (event.type === 'key') return stepSelectedKey(state, event.key, scene);
    if (event.type !== 'down') return unused(state, scene);
    return drawn({ tool: state.tool, name: 'dragging', places: [event.at] }, event.at, scene);
  }
  if (event.type === 'key') return drawn(state, null, scene);
  if (event.type === 'move') return drawn(state, event.at, scene);
  const following = { ...state, name: 'following' } as const;
  if (event.type === 'down')
    return drawn(state.name === 'dragging' ? state : { ...state, name: 'closing' }, event.at, scene);
  if (state.name === 'following') return drawn(state, event.at, scene);
  const last = state.places.at(-1) ?? event.at;
  if (state.name === 'dragging' && apart(last, event.at) < scene.reach) return drawn(following, event.at, scene);
  if (apart(last, event.at) < SMALLEST_SHAPE) return drawn(following, event.at, scene);
  const places = [...state.places, event.at];
  if (places.length < SHAPES[state.tool].drawn.places) return drawn({ ...following, places }, event.at, scene);
  return kept(SHAPES[state.tool].drawn.through(places, scene.newId), state.tool, scene);
}

/** The state with a draft through its places and, where the pointer is known, that place too. */
function drawn(
  state: ToolState & { places: readonly PicturePoint[]; tool: DrawnKind },
  at: PicturePoint | null,
  scene: ToolScene,
): ToolStep {
  const draft = at === null ? null : draftThrough(state.tool, [...state.places, at], scene);
  return { state, draft, commit: null, selected: null, used: true };
}

function kept(shape: Shape | null, tool: DrawnKind, scene: ToolScene): ToolStep {
  if (shape === null) return { state: idle(tool), draft: null, commit: null, selected: null, used: true };
  const selected = { kind: 'shape', id: shape.id, handle: null } as const;
  return { state: idle(tool), draft: null, commit: withNewShape(scene.marks, shape), selected, used: true };
}
