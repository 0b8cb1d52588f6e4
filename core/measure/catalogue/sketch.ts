import type { Edges } from '../../geometry/box.ts';
import type { Figure } from '../../geometry/figure.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { BoxShape, PicturePoint } from '../../model/mark.ts';
import type { ReadingAspect } from '../../model/reading.ts';
import type { ArcDrawing } from '../arc/arc-drawing.ts';
import type { PathPart } from '../arc/clubhead-path.ts';
import { covering, directionOf, dot, from, gap, meetingOf, middle, offset } from './sketch-places.ts';

/** Where a reading finds its points, in the picture. Asking for one that it is not made from is a mistake of ours: it throws. */
export interface SketchPlaces {
  readonly here: (point: BodyPointId) => PicturePoint;
  readonly address: (point: BodyPointId) => PicturePoint;
  readonly headBox: () => BoxShape;
  /** The outline of head and cap on the frame that is shown, as it is most likely. */
  readonly head: () => Edges;
  /** True vertical upward in the picture, of length 1. */
  readonly up: PicturePoint;
  /**
   * The place that lies so far from another on the ground, in millimetres toward the target and toward the ball; null
   * without ground marks, or where one of the two is not on the ground.
   */
  readonly onGround: (
    from: PicturePoint,
    by: { readonly target: number; readonly ball: number },
  ) => PicturePoint | null;
  /** Level, toward the target (face on) or the ball (down the line), of length 1. */
  readonly along: PicturePoint;
  /** The clubhead's arc round impact or away from address; null where its path does not tell one. */
  readonly arc: (part: PathPart) => ArcDrawing | null;
  /** The ball at rest, where the reading is made from it. */
  readonly ball: () => PicturePoint | null;
}

/**
 * The lines, lengths and angles that a reading is the number of: what its formula says, as a drawing. Lines of address are
 * carried onto the frame as they lie in the picture, since the camera stands still through a clip.
 */
export type Sketch = (places: SketchPlaces, aspect: ReadingAspect) => readonly Figure[];

/** For what is read without a place in the picture. */
export const NO_SKETCH: Sketch = () => [];

type Where = SketchPlaces['here'];

/** The parts on the frame that is read; a change shows lines of address beside them. */
export function withAddress(
  parts: (places: SketchPlaces, where: Where) => readonly Figure[],
  lines: (places: SketchPlaces, where: Where) => readonly Figure[] = parts,
): Sketch {
  return (places, aspect) => {
    const before = aspect === 'change' ? lines(places, places.address) : [];
    return [...parts(places, places.here), ...before.filter(({ kind }) => kind === 'line')];
  };
}

export function line(a: PicturePoint, b: PicturePoint): Figure {
  return { kind: 'line', a, b };
}

export function length(a: PicturePoint, b: PicturePoint): Figure {
  return { kind: 'length', a, b };
}

/** The arm to b is the one that moves; that to a is what it is read against. */
export function angle(vertex: PicturePoint, a: PicturePoint, b: PicturePoint): Figure {
  return { kind: 'angle', vertex, a, b };
}

/** An arc with its centre and its lowest place. */
export function fitted({ curve, centre, low }: ArcDrawing): readonly Figure[] {
  return [
    { kind: 'curve', points: curve },
    { kind: 'place', at: centre },
    { kind: 'place', at: low },
  ];
}

/** A line against the vertical through its foot. */
export function leaning(foot: PicturePoint, head: PicturePoint, up: PicturePoint): readonly Figure[] {
  const upright = from(foot, up, gap(foot, head));
  return [line(foot, head), line(foot, upright), angle(foot, upright, head)];
}

/** A line against the level through its start, on the side to which the line runs. */
export function levelled(start: PicturePoint, end: PicturePoint, along: PicturePoint): readonly Figure[] {
  const side = dot(offset(start, end), along) < 0 ? -1 : 1;
  const level = from(start, along, side * gap(start, end));
  return [line(start, end), line(start, level), angle(start, level, end)];
}

/** How far the guides on the ground run, millimetres: about a shoe, and a stance. */
const SHOE_MM = 300;
export const GUIDE_MM = 500;

/** A foot, and the way from its heel square to the target line; no arc, since the angle is one on the ground. */
export function flared({ here, onGround }: SketchPlaces, heel: BodyPointId, toe: BodyPointId): readonly Figure[] {
  const start = here(heel);
  return [line(start, here(toe)), ...guide(start, onGround(start, { target: 0, ball: SHOE_MM }))];
}

export function guide(start: PicturePoint, end: PicturePoint | null): readonly Figure[] {
  return end === null ? [] : [line(start, end)];
}

export function slipped(before: PicturePoint, after: PicturePoint): readonly Figure[] {
  return [{ kind: 'place', at: before }, length(before, after)];
}

/** The line of a to b, as far as it is wanted, and the way from it to a place beside it. */
export function offLine(at: PicturePoint, a: PicturePoint, b: PicturePoint): readonly Figure[] {
  const direction = directionOf(a, b);
  const foot = from(a, direction, dot(offset(a, at), direction));
  return [line(...covering(a, b, foot)), length(foot, at)];
}

export function bent(a: PicturePoint, vertex: PicturePoint, b: PicturePoint): readonly Figure[] {
  return [line(a, vertex), line(vertex, b), angle(vertex, a, b)];
}

/** The part of a way that runs along `direction`, and the rest of the way. */
export function moved(before: PicturePoint, after: PicturePoint, direction: PicturePoint): readonly Figure[] {
  const corner = from(before, direction, dot(offset(before, after), direction));
  return [{ kind: 'place', at: before }, length(before, corner), line(corner, after)];
}

export function middlesMoved(
  { here, address, along }: SketchPlaces,
  one: BodyPointId,
  other: BodyPointId,
): readonly Figure[] {
  const [before, after] = [middle(address(one), address(other)), middle(here(one), here(other))];
  return [line(here(one), here(other)), line(address(one), address(other)), ...moved(before, after, along)];
}

/** Beyond this many times the second line's length from it a meeting place says nothing to the eye. */
const FARTHEST_MEETING = 1.5;

/** A line against another one, with the angle between their directions where they meet; without it where they meet far off or nowhere. */
export function crossing(
  [a, b]: readonly [PicturePoint, PicturePoint],
  [c, d]: readonly [PicturePoint, PicturePoint],
): readonly Figure[] {
  const at = meetingOf(a, b, c, d);
  const reach = gap(c, d);
  if (at === null || Math.min(gap(at, c), gap(at, d)) > FARTHEST_MEETING * reach) return [line(a, b), line(c, d)];
  return [
    line(...covering(a, b, at)),
    line(...covering(c, d, at)),
    angle(at, from(at, directionOf(c, d), reach), from(at, directionOf(a, b), reach)),
  ];
}
