import { entry, invert, solve } from './linear.ts';
import type { Matrix, Vector } from './linear.ts';

/** What a fit found. */
export interface LeastSquares {
  readonly parameters: Vector;
  /** Residuals at the parameters, in their order. */
  readonly residuals: Vector;
  /** Sum of their squares. */
  readonly sum: number;
  /** (J^T J)^-1: the parameters' covariance for residuals that each scatter by 1; null when the fit is not determined. */
  readonly covariance: Matrix | null;
}

const MOST_STEPS = 60;
/** A step shorter than this part of the parameters' own size changes nothing that could be seen. */
const SMALL_STEP = 1e-12;
/** Where residuals stay, steps end at the rounding of the slopes instead: short, and no longer shrinking by a tenth. */
const SHORT_STEP = 1e-7;
/** The differences that slopes are taken over, as a part of each parameter's size. */
const DIFFERENCE = 1e-6;

/**
 * Parameters for which the sum of squared residuals is least, by Gauss and Newton with Marquardt's damping from a start
 * near the answer. `sizes`: for each parameter how much of it is a noticeable change (> 0). Slopes are central differences, unless
 * `slopesAt` gives them: a row of each residual, a column of each parameter. null where residuals are not defined at the start.
 */
export function leastSquares(
  residualsOf: (parameters: Vector) => Vector | null,
  start: Vector,
  sizes: Vector,
  slopesAt: (parameters: Vector) => Matrix | null = (parameters) => slopesOf(residualsOf, parameters, sizes),
): LeastSquares | null {
  let parameters = start;
  let residuals = residualsOf(parameters);
  if (residuals === null) return null;
  let sum = sumOfSquares(residuals);
  let damping = 1e-6;
  let lastLength = Infinity;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const slopes = slopesAt(parameters);
    if (slopes === null) break;
    const moved = dampedStep(slopes, residuals, damping);
    if (moved === null) {
      damping = Math.max(damping, 1e-9) * 10;
      if (damping > 1e12) break;
      continue;
    }
    const next = parameters.map((value, i) => value - (moved[i] ?? 0));
    const nextResiduals = residualsOf(next);
    const nextSum = nextResiduals === null ? Infinity : sumOfSquares(nextResiduals);
    const length = Math.max(...moved.map((by, i) => Math.abs(by) / (sizes[i] ?? 1)));
    const isSmall = length <= SMALL_STEP || (length <= SHORT_STEP && length > 0.9 * lastLength);
    lastLength = length;
    // At the end the sum changes by less than its own rounding; a step is not refused for that.
    if (nextResiduals !== null && nextSum <= sum * (1 + 1e-12)) {
      [parameters, residuals, sum] = [next, nextResiduals, nextSum];
      damping = Math.max(damping / 10, 1e-15);
      if (isSmall) break;
    } else {
      if (isSmall) break;
      damping *= 10;
      if (damping > 1e12) break;
    }
  }
  const slopes = slopesAt(parameters);
  const covariance = slopes === null ? null : invert(normalOf(slopes));
  return { parameters, residuals, sum, covariance };
}

function dampedStep(slopes: Matrix, residuals: Vector, damping: number): number[] | null {
  const normal = normalOf(slopes);
  // A parameter that changes nothing would make the system singular; it stays where it is.
  const held = (value: number): number => (value === 0 ? 1 : value * (1 + damping));
  const damped = normal.map((row, i) => row.map((value, j) => (i === j ? held(value) : value)));
  const right = normal.map((_, j) => slopes.reduce((total, row, k) => total + (row[j] ?? 0) * (residuals[k] ?? 0), 0));
  return solve(damped, right);
}

/** J^T J, of rows of J. */
function normalOf(slopes: Matrix): number[][] {
  const normal = (slopes[0] ?? []).map(() => (slopes[0] ?? []).map(() => 0));
  for (const row of slopes)
    for (const [i, sums] of normal.entries()) {
      const slope = row[i] ?? Number.NaN;
      for (let j = 0; j < sums.length; j += 1) sums[j] = (sums[j] ?? 0) + slope * (row[j] ?? Number.NaN);
    }
  return normal;
}

/** slopes[residual][parameter]. */
function slopesOf(residualsOf: (parameters: Vector) => Vector | null, at: Vector, sizes: Vector): Matrix | null {
  const columns: Vector[] = [];
  for (const [place] of at.entries()) {
    const by = DIFFERENCE * (sizes[place] ?? 1);
    const moved = (sign: 1 | -1) => residualsOf(at.map((value, i) => (i === place ? value + sign * by : value)));
    const [ahead, behind] = [moved(1), moved(-1)];
    if (ahead === null || behind === null) return null;
    columns.push(ahead.map((value, k) => (value - (behind[k] ?? Number.NaN)) / (2 * by)));
  }
  return (columns[0] ?? []).map((_, k) => columns.map((_column, j) => entry(columns, j, k)));
}

function sumOfSquares(values: Vector): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
