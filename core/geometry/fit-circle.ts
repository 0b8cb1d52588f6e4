import type { PicturePoint } from '../model/mark.ts';
import { circleThrough } from './circle.ts';
import type { Circle } from './circle.ts';

export interface CircleFit extends Circle {
  /** Root mean square distance of the points from the circle, pixels, >= 0; 0 for three points. */
  readonly residual: number;
}

const MOST_STEPS = 100;
/** Near the end the sum of squares changes by less than its own rounding; a step is not refused for that. */
const ROUNDING = 1 + 1e-10;
/** Steps shorter than this part of the size of the point set change nothing that could be seen. */
const SMALL_STEP = 1e-13;
/** Points whose circle is this much larger than they are spread lie on a line, as far as anyone can tell. */
const LARGEST = 1e6;

/**
 * The circle that comes nearest to three or more points: least squares of the distances to it (the geometric fit), by
 * Gauss-Newton with halved steps from an algebraic start, after W. Gander, G. H. Golub and R. Strebel, "Least-squares
 * fitting of circles and ellipses", BIT 34 (1994) 558-578. Through three points it is their circle. null for fewer than
 * three different points, or points on a line.
 */
export function fitCircle(points: readonly PicturePoint[]): CircleFit | null {
  const [a, b, c] = points;
  if (a === undefined || b === undefined || c === undefined) return null;
  if (points.length === 3) {
    const through = circleThrough(a, b, c);
    return through === null ? null : { ...through, residual: 0 };
  }
  const middle = { x: mean(points.map(({ x }) => x)), y: mean(points.map(({ y }) => y)) };
  const size = Math.sqrt(mean(points.map(({ x, y }) => (x - middle.x) ** 2 + (y - middle.y) ** 2)));
  if (size === 0) return null;
  // Of size 1 around their middle, so that limits mean the same for every picture.
  const unit = points.map(({ x, y }) => ({ x: (x - middle.x) / size, y: (y - middle.y) / size }));
  let circle = algebraicFit(unit);
  if (circle === null) return null;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const next: Circle | null = improved(unit, circle);
    if (next === null) break;
    const moved = Math.hypot(next.centre.x - circle.centre.x, next.centre.y - circle.centre.y);
    const grown = Math.abs(next.radius - circle.radius);
    circle = next;
    if (moved + grown <= SMALL_STEP * Math.max(1, circle.radius)) break;
  }
  if (!(circle.radius < LARGEST)) return null;
  return {
    centre: { x: middle.x + size * circle.centre.x, y: middle.y + size * circle.centre.y },
    radius: size * circle.radius,
    residual: size * Math.sqrt(mean(distances(unit, circle).map((distance) => distance ** 2))),
  };
}

/** x² + y² + d x + e y + f = 0 in least squares: quick, but drawn toward small circles on short arcs. */
function algebraicFit(points: readonly PicturePoint[]): Circle | null {
  const rows = points.map(({ x, y }) => ({ row: [x, y, 1] as const, wanted: -(x * x + y * y) }));
  const solved = leastSquares(rows);
  if (solved === null) return null;
  const [d, e, f] = solved;
  const squared = (d * d + e * e) / 4 - f;
  return squared > 0 ? { centre: { x: -d / 2, y: -e / 2 }, radius: Math.sqrt(squared) } : null;
}

/** One Gauss-Newton step, halved until the sum of squares does not rise; null when every part of it does. */
function improved(points: readonly PicturePoint[], circle: Circle): Circle | null {
  const { centre, radius } = circle;
  const rows = points.map(({ x, y }) => {
    const away = Math.hypot(x - centre.x, y - centre.y);
    const towards = away === 0 ? { x: 0, y: 0 } : { x: (x - centre.x) / away, y: (y - centre.y) / away };
    return { row: [towards.x, towards.y, 1] as const, wanted: away - radius };
  });
  const solved = leastSquares(rows);
  if (solved === null) return null;
  const before = sumOfSquares(points, circle);
  for (let part = 1; part > 1e-10; part /= 2) {
    const next = {
      centre: { x: centre.x + part * solved[0], y: centre.y + part * solved[1] },
      radius: radius + part * solved[2],
    };
    if (next.radius > 0 && sumOfSquares(points, next) <= before * ROUNDING) return next;
  }
  return null;
}

interface Row {
  readonly row: readonly [number, number, number];
  readonly wanted: number;
}

/** Three unknowns by the normal equations, which are well enough conditioned for points of size 1. null when singular. */
function leastSquares(rows: readonly Row[]): readonly [number, number, number] | null {
  const at = (i: 0 | 1 | 2, j: 0 | 1 | 2): number => rows.reduce((sum, { row }) => sum + row[i] * row[j], 0);
  const right = (i: 0 | 1 | 2): number => rows.reduce((sum, { row, wanted }) => sum + row[i] * wanted, 0);
  const [m00, m01, m02, m11, m12, m22] = [at(0, 0), at(0, 1), at(0, 2), at(1, 1), at(1, 2), at(2, 2)];
  const [r0, r1, r2] = [right(0), right(1), right(2)];
  const c00 = m11 * m22 - m12 * m12;
  const c01 = m02 * m12 - m01 * m22;
  const c02 = m01 * m12 - m02 * m11;
  const determinant = m00 * c00 + m01 * c01 + m02 * c02;
  const scale = m00 * m11 * m22;
  if (!(Math.abs(determinant) > 1e-12 * Math.abs(scale))) return null;
  const c11 = m00 * m22 - m02 * m02;
  const c12 = m01 * m02 - m00 * m12;
  const c22 = m00 * m11 - m01 * m01;
  return [
    (c00 * r0 + c01 * r1 + c02 * r2) / determinant,
    (c01 * r0 + c11 * r1 + c12 * r2) / determinant,
    (c02 * r0 + c12 * r1 + c22 * r2) / determinant,
  ];
}

function distances(points: readonly PicturePoint[], { centre, radius }: Circle): readonly number[] {
  return points.map(({ x, y }) => Math.hypot(x - centre.x, y - centre.y) - radius);
}

function sumOfSquares(points: readonly PicturePoint[], circle: Circle): number {
  return distances(points, circle).reduce((sum, distance) => sum + distance ** 2, 0);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
