import { fitCircle } from '../../core/geometry/fit-circle.ts';
import { BODY_POINTS } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type {
  BoxShape,
  CircleShape,
  FrameMarks,
  LineShape,
  PicturePoint,
  PlacedPoint,
  Plane,
  Shape,
} from '../../core/model/mark.ts';
import type { HandleName, Target } from './target.ts';

/** A displacement in pixels of the picture. */
export type Shift = PicturePoint;

function shifted(at: PicturePoint, by: Shift): PicturePoint {
  return { x: at.x + by.x, y: at.y + by.y };
}

/** The box with two opposite corners at `one` and `other`, whichever way round they lie. */
export function boxFromCorners(
  one: PicturePoint,
  other: PicturePoint,
): { x: number; y: number; width: number; height: number } {
  return {
    x: Math.min(one.x, other.x),
    y: Math.min(one.y, other.y),
    width: Math.abs(other.x - one.x),
    height: Math.abs(other.y - one.y),
  };
}

function movedCorner(box: BoxShape, corner: number, by: Shift): BoxShape {
  const left = corner === 0 || corner === 3;
  const top = corner === 0 || corner === 1;
  const far = { x: left ? box.x + box.width : box.x, y: top ? box.y + box.height : box.y };
  const near = shifted({ x: left ? box.x : box.x + box.width, y: top ? box.y : box.y + box.height }, by);
  return { ...box, ...boxFromCorners(far, near) };
}

/** A circle through places with one of them moved and fitted anew, or all of it moved. Places on a line change nothing. */
function movedRim(
  circle: CircleShape,
  rim: readonly PicturePoint[],
  handle: HandleName | null,
  by: Shift,
): CircleShape {
  if (handle === null) return { ...circle, centre: shifted(circle.centre, by), rim: rim.map((at) => shifted(at, by)) };
  const moved = rim.map((at, place) => (handle === `rim-${place}` ? shifted(at, by) : at));
  const fit = fitCircle(moved);
  return fit === null ? circle : { ...circle, centre: fit.centre, radius: fit.radius, rim: moved };
}

/** The shape with one handle, or (`handle` null) all of it, moved. */
export function movedShape(shape: Shape, handle: HandleName | null, by: Shift): Shape {
  switch (shape.kind) {
    case 'line':
      return {
        ...shape,
        a: handle === 'b' ? shape.a : shifted(shape.a, by),
        b: handle === 'a' ? shape.b : shifted(shape.b, by),
      };
    case 'angle': {
      const moves = (name: HandleName): boolean => handle === null || handle === name;
      return {
        ...shape,
        a: moves('a') ? shifted(shape.a, by) : shape.a,
        vertex: moves('vertex') ? shifted(shape.vertex, by) : shape.vertex,
        b: moves('b') ? shifted(shape.b, by) : shape.b,
      };
    }
    case 'box':
      if (handle === null) return { ...shape, ...shifted(shape, by) };
      return movedCorner(shape, Number(handle.slice(-1)), by);
    case 'free':
      return { ...shape, places: shape.places.map((place) => shifted(place, by)) };
    case 'path':
      return { ...shape, places: shape.places.map((place) => ({ ...shifted(place, by), pts: place.pts })) };
    case 'ground':
      return {
        ...shape,
        places: shape.places.map((place, at) => ({ ...place, ...movedPlace(place, at, handle, by) })),
      };
    case 'edge':
      return { ...shape, places: shape.places.map((place, at) => movedPlace(place, at, handle, by)) };
    case 'circle': {
      if (shape.rim !== undefined) return movedRim(shape, shape.rim, handle, by);
      if (handle !== 'edge') return { ...shape, centre: shifted(shape.centre, by) };
      return { ...shape, radius: Math.hypot(shape.radius + by.x, by.y) };
    }
  }
}

/** One of several places: moved when the whole shape is, or when it is the one that is held. */
function movedPlace(place: PicturePoint, at: number, handle: HandleName | null, by: Shift): PicturePoint {
  return handle === null || handle === `place-${at}` ? shifted(place, by) : { x: place.x, y: place.y };
}

/** The marks with `target` moved; unchanged when it is not on the frame. */
export function movedMarks(marks: FrameMarks, target: Target, by: Shift): FrameMarks {
  if (target.kind === 'point') {
    const placed = marks.points[target.point];
    return placed === undefined ? marks : withPoint(marks, target.point, { ...placed, ...shifted(placed, by) });
  }
  return withShape(marks, target.id, (shape) => movedShape(shape, target.handle, by));
}

/** The marks with a body point placed, replacing an earlier place of it. */
export function withPoint(marks: FrameMarks, point: BodyPointId, placed: PlacedPoint): FrameMarks {
  return { ...marks, points: { ...marks.points, [point]: placed } };
}

export function withNewShape(marks: FrameMarks, shape: Shape): FrameMarks {
  return { ...marks, shapes: [...marks.shapes, shape] };
}

function withShape(marks: FrameMarks, id: string, change: (shape: Shape) => Shape): FrameMarks {
  return { ...marks, shapes: marks.shapes.map((shape) => (shape.id === id ? change(shape) : shape)) };
}

/** The marks without `target`; of a shape always the whole, whichever handle is named. */
export function withoutTarget(marks: FrameMarks, target: Target): FrameMarks {
  if (target.kind === 'shape') return { ...marks, shapes: marks.shapes.filter((shape) => shape.id !== target.id) };
  const points: Partial<Record<BodyPointId, PlacedPoint>> = {};
  for (const point of BODY_POINTS) {
    const placed = marks.points[point];
    if (placed !== undefined && point !== target.point) points[point] = placed;
  }
  return { ...marks, points };
}

/** What a line stands for: nothing, the true vertical or horizontal, or a known length. */
export type LineMeaning =
  | { readonly role: 'plumb' | 'level' | null }
  | { readonly role: 'yardstick'; readonly lengthMm: number; readonly lengthUMm: number | null; readonly plane: Plane };

/**
 * Says what a line stands for. Several plumbs, levels and yardsticks of a clip are combined, so others stay what they are. What
 * becomes one holds for all of the clip and is shown on all of its frames, until the coach says otherwise or it is a plain
 * line again.
 */
export function withLineRole(marks: FrameMarks, id: string, meaning: LineMeaning): FrameMarks {
  return withShape(marks, id, (shape) => (shape.kind === 'line' ? meaningLine(shape, meaning) : shape));
}

function meaningLine({ id, kind, a, b, role: before, carried }: LineShape, meaning: LineMeaning): LineShape {
  const [was, is] = [before !== null, meaning.role !== null];
  const isCarried = was === is ? carried === true : is;
  const plain = { id, kind, a, b, ...(isCarried ? { carried: true as const } : {}) };
  if (meaning.role !== 'yardstick') return { ...plain, role: meaning.role, lengthMm: null };
  const { role, lengthMm, lengthUMm, plane } = meaning;
  return { ...plain, role, lengthMm, plane, ...(lengthUMm === null ? {} : { lengthUMm }) };
}

/** Says whether a circle is the edge of the ball. */
export function withBall(marks: FrameMarks, id: string, on: boolean): FrameMarks {
  return withShape(marks, id, (shape) => {
    if (shape.kind !== 'circle') return shape;
    const plain: CircleShape = { ...shape };
    Reflect.deleteProperty(plain, 'role');
    return on ? { ...plain, role: 'ball' } : plain;
  });
}

/** Makes a box the outline of head and cap (the only one of the frame), or a plain box again. It holds for its frame alone. */
export function withHead(marks: FrameMarks, id: string, on: boolean): FrameMarks {
  const shapes = marks.shapes.map((shape): Shape => {
    if (shape.kind !== 'box') return shape;
    if (shape.id === id) return { ...(on ? carried(shape, false) : shape), role: on ? 'head' : null };
    return on && shape.role === 'head' ? { ...shape, role: null } : shape;
  });
  return { ...marks, shapes };
}

/**
 * Makes a box the head box (the only one of the frame), or a plain box again. A head box is there to be looked at later:
 * it is carried over all frames.
 */
export function withHeadBox(marks: FrameMarks, id: string, on: boolean): FrameMarks {
  const shapes = marks.shapes.map((shape): Shape => {
    if (shape.kind !== 'box') return shape;
    if (shape.id === id) return { ...(on ? carried(shape, true) : shape), role: on ? 'head-box' : null };
    return on && shape.role === 'head-box' ? { ...shape, role: null } : shape;
  });
  return { ...marks, shapes };
}

/** Shows a shape on all frames of its clip, or on its own frame only. */
export function withCarried(marks: FrameMarks, id: string, on: boolean): FrameMarks {
  return withShape(marks, id, (shape) => carried(shape, on));
}

function carried<Kind extends Shape>(shape: Kind, on: boolean): Kind {
  if (on) return { ...shape, carried: true };
  const pinned: Kind = { ...shape };
  Reflect.deleteProperty(pinned, 'carried');
  return pinned;
}

/** Says of a placed point whether its place was guessed because something covers it. */
export function withHidden(marks: FrameMarks, point: BodyPointId, hidden: boolean): FrameMarks {
  const placed = marks.points[point];
  return placed === undefined ? marks : withPoint(marks, point, { ...placed, hidden });
}

/** The marks with a shape of the same id in the place of the one that is there. */
export function withChangedShape(marks: FrameMarks, changed: Shape): FrameMarks {
  return withShape(marks, changed.id, () => changed);
}
