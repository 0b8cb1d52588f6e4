import type { PicturePoint } from '../model/mark.ts';

/** A place on the flat ground, millimetres from the ground's origin: x toward the target, y from the player toward the ball. */
export interface GroundPoint {
  readonly x: number;
  readonly y: number;
}

/** A place on the ground whose position is known, and where it was placed in the picture. */
export interface GroundMark {
  readonly ground: GroundPoint;
  readonly picture: PicturePoint;
}

/**
 * Two marks nearer than this are one mark given twice. No coach lays two marks 1 mm apart, and 1 px is well below the 3 px
 * that a placed point is taken to be off by.
 */
export const SAME_PLACE = { ground: 1, picture: 1 } as const;

/**
 * Three marks count as lying on a line when the lowest height of their triangle is below this. 20 mm on the ground: a mark
 * is laid out to about a centimetre, and of a triangle no higher than twice that nobody knows which way it bends. 6 px in
 * the picture: the same, twice the 3 px that a placed point is taken to be off by (one standard deviation, 1080 lines).
 */
export const ON_A_LINE = { ground: 20, picture: 6 } as const;

/** Places in `marks` of two that share a place on the ground or in the picture, or null. */
export function sharedPlace(marks: readonly GroundMark[]): readonly [number, number] | null {
  for (const [i, one] of marks.entries())
    for (const [j, other] of marks.entries())
      if (
        j > i &&
        (isNear(one.ground, other.ground, SAME_PLACE.ground) || isNear(one.picture, other.picture, SAME_PLACE.picture))
      )
        return [i, j];
  return null;
}

/**
 * Whether some four of the marks have no three on a line, on the ground and in the picture: what a map between two planes
 * needs to be determined (Hartley & Zisserman, Multiple View Geometry, 2nd ed., section 4.1.3). So three of four on a line
 * are not enough, nor any number of marks that are all but one on a line. See ON_A_LINE for what counts as a line.
 */
export function inGeneralPosition(marks: readonly GroundMark[]): boolean {
  const isTriangle = (a: GroundMark, b: GroundMark, c: GroundMark): boolean =>
    lowestHeight(a.ground, b.ground, c.ground) >= ON_A_LINE.ground &&
    lowestHeight(a.picture, b.picture, c.picture) >= ON_A_LINE.picture;
  return marks.some((a, i) =>
    marks.some(
      (b, j) =>
        j > i &&
        marks.some(
          (c, k) =>
            k > j &&
            isTriangle(a, b, c) &&
            marks.some((d, l) => l > k && isTriangle(a, b, d) && isTriangle(a, c, d) && isTriangle(b, c, d)),
        ),
    ),
  );
}

/** The height of a triangle over its longest side, which is its lowest; 0 when it has no sides. */
function lowestHeight(a: GroundPoint, b: GroundPoint, c: GroundPoint): number {
  const doubleArea = Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  const longest = Math.max(apart(a, b), apart(a, c), apart(b, c));
  return longest === 0 ? 0 : doubleArea / longest;
}

function isNear(a: GroundPoint, b: GroundPoint, limit: number): boolean {
  return apart(a, b) < limit;
}

function apart(a: GroundPoint, b: GroundPoint): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}
