import type { PicturePoint, Shape } from '../../core/model/mark.ts';
import { boxFromCorners, withNewShape } from './change-marks.ts';
import { stepSelectedKey } from './keys.ts';
import { cancelled, idle, unused } from './tool.ts';
import type { DrawingTool, GestureEvent, ToolScene, ToolState, ToolStep } from './tool.ts';

/** Shapes smaller than this, in picture pixels, are slips of the hand and are not kept. */
export const SMALLEST_SHAPE = 1;

/** How many places make the shape: an angle is drawn as arm end, corner, arm end. */
const PLACES: Readonly<Record<DrawingTool, number>> = { line: 2, angle: 3, box: 2 };

export function apart(one: PicturePoint, other: PicturePoint): number {
  return Math.hypot(other.x - one.x, other.y - one.y);
}

/** The shape through `places`, or null while it would be too small or lacks places. */
export function shapeThrough(tool: DrawingTool, places: readonly PicturePoint[], id: string): Shape | null {
  const [first, second, third] = places;
  if (first === undefined || second === undefined || apart(first, second) < SMALLEST_SHAPE) return null;
  switch (tool) {
    case 'line':
      return { kind: 'line', id, a: first, b: second, role: null, lengthMm: null };
    case 'angle':
      if (third === undefined || apart(second, third) < SMALLEST_SHAPE) return null;
      return { kind: 'angle', id, a: first, vertex: second, b: third };
    case 'box':
      return { kind: 'box', id, ...boxFromCorners(first, second), role: null };
  }
}

/** What to show while the next place follows the pointer: the shape, or of an angle its first arm. */
function draftThrough(tool: DrawingTool, places: readonly PicturePoint[], scene: ToolScene) {
  const whole = shapeThrough(tool, places, scene.newId);
  const shape = whole ?? (tool === 'angle' ? shapeThrough('line', places, scene.newId) : null);
  return shape === null ? null : withNewShape(scene.marks, shape);
}

/**
 * Draws lines, angles and boxes by dragging, by clicking place after place, or by both mixed. `dragging`: the first place is pressed and held.
 * `following`: the button is up and the next place follows the pointer. `closing`: pressed again; the place is taken on
 * release. A first release within reach of its press was a click, so that a trembling hand can click.
 */
export function stepDrawing(
  state: Extract<ToolState, { tool: DrawingTool }>,
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
  if (places.length < PLACES[state.tool]) return drawn({ ...following, places }, event.at, scene);
  return kept(shapeThrough(state.tool, places, scene.newId), state.tool, scene);
}

/** The state with a draft through its places and, where the pointer is known, that place too. */
function drawn(
  state: ToolState & { places: readonly PicturePoint[]; tool: DrawingTool },
  at: PicturePoint | null,
  scene: ToolScene,
): ToolStep {
  const draft = at === null ? null : draftThrough(state.tool, [...state.places, at], scene);
  return { state, draft, commit: null, selected: null, used: true };
}

function kept(shape: Shape | null, tool: DrawingTool, scene: ToolScene): ToolStep {
  if (shape === null) return { state: idle(tool), draft: null, commit: null, selected: null, used: true };
  const selected = { kind: 'shape', id: shape.id, handle: null } as const;
  return { state: idle(tool), draft: null, commit: withNewShape(scene.marks, shape), selected, used: true };
}
