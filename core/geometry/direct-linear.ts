import type { GroundPoint } from './ground-marks.ts';
import { multiply, symmetricEigen, transpose } from './linear.ts';
import type { Matrix, Vector } from './linear.ts';

/*
 * The normalised direct linear transformation: R. Hartley and A. Zisserman, Multiple View Geometry, 2nd ed., Algorithm 4.2.
 */

/** (x, y) -> scale (x - x0, y - y0): the places around 0, at a mean distance of the square root of 2. */
export interface Normalisation {
  readonly scale: number;
  readonly x0: number;
  readonly y0: number;
}

/** The one for these places, of which at least two must differ. */
export function normalisation(places: readonly GroundPoint[]): Normalisation {
  const mean = (pick: (place: GroundPoint) => number) =>
    places.reduce((sum, place) => sum + pick(place), 0) / places.length;
  const x0 = mean(({ x }) => x);
  const y0 = mean(({ y }) => y);
  return { scale: Math.SQRT2 / mean(({ x, y }) => Math.hypot(x - x0, y - y0)), x0, y0 };
}

/** A place in the normalised plane. */
export function moved({ scale, x0, y0 }: Normalisation, { x, y }: GroundPoint): GroundPoint {
  return { x: scale * (x - x0), y: scale * (y - y0) };
}

/** The same as a 3 x 3 matrix on (x, y, 1). */
export function matrixOf({ scale, x0, y0 }: Normalisation): Matrix {
  return [
    [scale, 0, -scale * x0],
    [0, scale, -scale * y0],
    [0, 0, 1],
  ];
}

/** The matrix that undoes it. */
export function undone({ scale, x0, y0 }: Normalisation): Matrix {
  return [
    [1 / scale, 0, x0],
    [0, 1 / scale, y0],
    [0, 0, 1],
  ];
}

/** A place on one plane and its place on the other, both normalised. */
export interface Pair {
  readonly from: GroundPoint;
  readonly to: GroundPoint;
}

/** The nine entries, row by row and of length 1, with the least algebraic error; and eight more at right angles to them. */
export function directSolution(pairs: readonly Pair[]): { readonly solution: Vector; readonly others: Matrix } {
  const rows = pairs.flatMap(({ from: { x, y }, to: { x: u, y: v } }) => [
    [0, 0, 0, -x, -y, -1, v * x, v * y, v],
    [x, y, 1, 0, 0, 0, -u * x, -u * y, -u],
  ]);
  const { vectors } = symmetricEigen(multiply(transpose(rows), rows));
  return { solution: vectors[8] ?? [], others: vectors.slice(0, 8) };
}
