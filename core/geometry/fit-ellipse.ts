import type { PicturePoint } from '../model/mark.ts';
import { wrapAngle } from './angle.ts';
import { nearestOnEllipse } from './ellipse.ts';
import type { Ellipse } from './ellipse.ts';
import { leastSquares } from './least-squares.ts';
import { entry, multiply, solve, symmetricEigen, transpose } from './linear.ts';
import type { Matrix, Vector } from './linear.ts';

export interface EllipseFit extends Ellipse {
  /** Root mean square distance of the points from the ellipse, pixels, >= 0; 0 for five points. */
  readonly residual: number;
}

const FEWEST = 5;
/** An ellipse this much longer than its points are spread is a parabola, as far as anyone can tell. */
const LONGEST = 1e4;
/** Eigenvalues below this part of the largest are rounding; two of them: more than one conic fits as well. */
const NOTHING = 1e-13;

/**
 * The ellipse that comes nearest to five or more points: least squares of the distances to it (the geometric fit, W.
 * Gander, G. H. Golub and R. Strebel, BIT 34 (1994) 558-578), from the start of `algebraicEllipse`. null for fewer than
 * five different points, for points that more than one conic fits as well (points on a line), and where the conic that
 * fits best is no ellipse or one longer than 10,000 times its points.
 */
export function fitEllipse(points: readonly PicturePoint[]): EllipseFit | null {
  const start = algebraicEllipse(points);
  if (start === null) return null;
  const unit = toUnit(points);
  const half = (start.major - start.minor) / (2 * unit.size);
  const fit = leastSquares(
    (parameters) => distances(unit.points, ellipseOf(parameters)),
    [
      (start.centre.x - unit.middle.x) / unit.size,
      (start.centre.y - unit.middle.y) / unit.size,
      (start.major + start.minor) / (2 * unit.size),
      half * Math.cos(2 * start.angle),
      half * Math.sin(2 * start.angle),
    ],
    [1, 1, 1, 1, 1],
  );
  if (fit === null) return null;
  const found = ellipseOf(fit.parameters);
  if (!(found.minor > 0) || !(found.major < LONGEST)) return null;
  return { ...fromUnit(found, unit), residual: unit.size * Math.sqrt(fit.sum / points.length) };
}

/**
 * The ellipse of the best conic in the sense of G. Taubin, "Estimation of planar curves, surfaces and nonplanar space
 * curves defined by implicit equations", IEEE PAMI 13 (1991) 1115-1138: least sum of the equation's squares over the sum
 * of its gradients' squares. Quick and nearly without bias; through five points it is their conic. null as `fitEllipse`.
 */
export function algebraicEllipse(points: readonly PicturePoint[]): Ellipse | null {
  if (points.length < FEWEST) return null;
  const unit = toUnit(points);
  if (!(unit.size > 0)) return null;
  const conic = taubinConic(unit.points);
  const ellipse = conic === null ? null : ellipseOfConic(conic);
  return ellipse === null || !(ellipse.major < LONGEST) ? null : fromUnit(ellipse, unit);
}

interface UnitPoints {
  readonly points: readonly PicturePoint[];
  readonly middle: PicturePoint;
  readonly size: number;
}

/** Of size 1 around their middle, so that limits mean the same for every picture. */
function toUnit(points: readonly PicturePoint[]): UnitPoints {
  const middle = { x: mean(points.map(({ x }) => x)), y: mean(points.map(({ y }) => y)) };
  const size = Math.sqrt(mean(points.map(({ x, y }) => (x - middle.x) ** 2 + (y - middle.y) ** 2)));
  return { points: points.map(({ x, y }) => ({ x: (x - middle.x) / size, y: (y - middle.y) / size })), middle, size };
}

function fromUnit({ centre, major, minor, angle }: Ellipse, { middle, size }: UnitPoints): Ellipse {
  return {
    centre: { x: middle.x + size * centre.x, y: middle.y + size * centre.y },
    major: size * major,
    minor: size * minor,
    angle,
  };
}

/** A x² + B x y + C y² + D x + E y + F = 0 as [A ... F]. */
function taubinConic(points: readonly PicturePoint[]): Vector | null {
  const rows = points.map(({ x, y }) => [x * x, x * y, y * y, x, y]);
  const means = transpose(rows).map(mean);
  // The best F makes the mean of the equation 0, so that it drops out of the problem.
  const centred = rows.map((row) => row.map((value, j) => value - (means[j] ?? 0)));
  const squares = multiply(transpose(centred), centred);
  const gradients = points.flatMap(({ x, y }) => [
    [2 * x, y, 0, 1, 0],
    [0, x, 2 * y, 0, 1],
  ]);
  const weights = multiply(transpose(gradients), gradients);
  const root = choleskyRoot(weights);
  if (root === null) return null;
  // weights = root root^T: with a = root^-T v the problem is an ordinary symmetric one in v.
  const halfway = columnsSolved(root, squares);
  const whole = halfway === null ? null : columnsSolved(root, transpose(halfway));
  if (whole === null) return null;
  const { values, vectors } = symmetricEigen(whole);
  if (!((values[3] ?? 0) > NOTHING * (values[0] ?? 0))) return null;
  const conic = solve(transpose(root), vectors[4] ?? []);
  return conic === null ? null : [...conic, -conic.reduce((sum, value, j) => sum + value * (means[j] ?? 0), 0)];
}

/** The X of L X = B. */
function columnsSolved(lower: Matrix, b: Matrix): number[][] | null {
  const columns = transpose(b).map((column) => solve(lower, column));
  return columns.every((column) => column !== null) ? transpose(columns) : null;
}

/** The lower triangle L with L L^T = matrix, or null when the matrix is not positive definite. */
function choleskyRoot(matrix: Matrix): number[][] | null {
  const root = matrix.map((row) => row.map(() => 0));
  for (const [j, into] of root.entries()) {
    for (let k = 0; k <= j; k += 1) {
      const other = root[k] ?? [];
      const left = entry(matrix, j, k) - other.slice(0, k).reduce((sum, value, i) => sum + value * (into[i] ?? 0), 0);
      if (k < j) into[k] = left / (other[k] ?? Number.NaN);
      else if (left > NOTHING * entry(matrix, j, j)) into[j] = Math.sqrt(left);
      else return null;
    }
  }
  return root;
}

function ellipseOfConic(conic: Vector): Ellipse | null {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = conic;
  const determinant = 4 * a * c - b * b;
  if (!(determinant > 0)) return null;
  const centre = { x: (b * e - 2 * c * d) / determinant, y: (b * d - 2 * a * e) / determinant };
  const level = -(f + (d * centre.x + e * centre.y) / 2);
  const turn = Math.hypot(a - c, b);
  // Both have the sign of a + c, since their product is determinant / 4.
  const [flat, steep] = a + c > 0 ? [a + c - turn, a + c + turn] : [a + c + turn, a + c - turn];
  const [major, minor] = [(2 * level) / flat, (2 * level) / steep];
  if (!(minor > 0) || !Number.isFinite(major)) return null;
  const sign = a + c > 0 ? 1 : -1;
  const angle = wrapAngle(Math.atan2(-sign * b, -sign * (a - c)) / 2, Math.PI);
  return { centre, major: Math.sqrt(major), minor: Math.sqrt(minor), angle };
}

/**
 * From centre, mean half axis, and half the axes' difference as (cos, sin) of twice the angle, which stay smooth where the
 * ellipse passes through a circle. The angle of a circle comes out 0.
 */
function ellipseOf([x = 0, y = 0, middle = 0, cos = 0, sin = 0]: Vector): Ellipse {
  const half = Math.hypot(cos, sin);
  const angle = wrapAngle(Math.atan2(sin, cos) / 2, Math.PI);
  return { centre: { x, y }, major: middle + half, minor: middle - half, angle };
}

function distances(points: readonly PicturePoint[], { centre, major, minor, angle }: Ellipse): Vector | null {
  if (!(minor > 0)) return null;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return points.map((point) => {
    const [x, y] = [point.x - centre.x, point.y - centre.y];
    return nearestOnEllipse(major, minor, x * cos + y * sin, y * cos - x * sin).distance;
  });
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
