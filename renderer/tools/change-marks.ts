import { BODY_POINTS } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type {
  CircleShape,
  FrameMarks,
  LineShape,
  PicturePoint,
  PlacedPoint,
  Plane,
  Shape,
  ShapeLook,
} from '../../core/model/mark.ts';
import { shifted } from '../../core/shapes/places.ts';
import { kindOf } from '../../core/shapes/shapes.ts';
import type { Target } from './target.ts';

/** A displacement in pixels of the picture. */
export type Shift = PicturePoint;

/** The marks with `target` moved; unchanged when it is not on the frame. */
export function movedMarks(marks: FrameMarks, target: Target, by: Shift): FrameMarks {
  if (target.kind === 'point') {
    const placed = marks.points[target.point];
    if (placed === undefined) return marks;
    const { hidden, proposed } = placed;
    // A hand has moved it: it is no longer where it was proposed, and how far off that lay is learnt from.
    const kept = proposed === undefined ? { hidden } : { hidden, proposed };
    return withPoint(marks, target.point, { ...shifted(placed, by), ...kept });
  }
  return withShape(marks, target.id, (shape) => kindOf(shape).moved(shape, target.handle, by));
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
 * Says what a line stands for. Several plumbs, levels and known lengths of a clip are combined, so others stay what they are. What
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

/** Gives a shape another look; what the look leaves out is as usual. */
export function withLook(marks: FrameMarks, id: string, look: ShapeLook): FrameMarks {
  return withShape(marks, id, (shape) => dressed(shape, look));
}

/** The shape with another look. */
export function dressed<Kind extends Shape>(shape: Kind, look: ShapeLook): Kind {
  const bare: Kind = { ...shape };
  for (const part of ['colour', 'thickness', 'unlabelled'] as const) Reflect.deleteProperty(bare, part);
  return { ...bare, ...look };
}

/** The look alone: what is usual is left out. */
export function lookOf(look: { readonly [Part in keyof ShapeLook]?: ShapeLook[Part] | undefined }): ShapeLook {
  const { colour, thickness, unlabelled } = look;
  return {
    ...(colour === undefined ? {} : { colour }),
    ...(thickness === undefined ? {} : { thickness }),
    ...(unlabelled === undefined ? {} : { unlabelled }),
  };
}

/** Says what a text on the picture says. */
export function withWords(marks: FrameMarks, id: string, words: string): FrameMarks {
  return withShape(marks, id, (shape) => (shape.kind === 'text' ? { ...shape, words } : shape));
}

/** The marks with a shape of the same id in the place of the one that is there. */
export function withChangedShape(marks: FrameMarks, changed: Shape): FrameMarks {
  return withShape(marks, changed.id, () => changed);
}
