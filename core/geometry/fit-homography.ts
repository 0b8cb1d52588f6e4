import { covarianceRoot } from './covariance-root.ts';
import { directSolution, matrixOf, moved, normalisation, undone } from './direct-linear.ts';
import type { Pair } from './direct-linear.ts';
import { inGeneralPosition, sharedPlace } from './ground-marks.ts';
import type { GroundMark, GroundPoint } from './ground-marks.ts';
import { homographyOf } from './homography.ts';
import type { Homography } from './homography.ts';
import { leastSquares } from './least-squares.ts';
import { entry, multiply, timesVector, transpose } from './linear.ts';
import type { Matrix, Vector } from './linear.ts';

/** The map that the marks give, and how well they give it. */
export interface HomographyFit {
  readonly state: 'fitted';
  readonly homography: Homography;
  /** How far each mark lies from where the map puts it, pixels, >= 0, in the order of the marks; all 0 with four marks. */
  readonly residuals: readonly number[];
  /** Root mean square of `residuals`, pixels. */
  readonly rms: number;
  /**
   * The standard deviation of placing, pixels in x and in y, that the residuals speak of: sqrt(sum of squares / (2 n - 8)).
   * null with four marks, which always fit.
   */
  readonly scatter: number | null;
  /**
   * Eight 3 x 3 matrices D that carry the covariance, for placing errors of 1 px standard deviation, independent in x and
   * y and between marks: groundToPicture + sum z_k D_k with independent standard normal z_k scatters, to first order, as
   * the map does when the marks are placed again. Errors of s px: times s. Errors of the ground's own tape are not in it.
   */
  readonly spread: readonly Matrix[];
}

/**
 * Why there is no map. `too-few`: fewer than four marks. `same-place`: two marks share a place on the ground or in the
 * picture. `on-a-line`: no four of which no three lie on a line. `over-horizon`: no camera sees these places so, some would
 * lie on the horizon or beyond it; mostly two marks are mixed up. `marks`: the places in the list that it is about.
 */
export interface HomographyRefusal {
  readonly state: 'refused';
  readonly reason: 'too-few' | 'same-place' | 'on-a-line' | 'over-horizon';
  readonly marks: readonly number[];
}

/**
 * The map between ground and picture that brings the marks nearest to their places in the picture (least squares of the
 * pixels that are left). Starts from the normalised direct linear transformation (R. Hartley and A. Zisserman, Multiple
 * View Geometry, 2nd ed., Algorithm 4.2) and goes on by Gauss and Newton (their section 4.5). Coordinates must be finite.
 */
export function fitHomography(marks: readonly GroundMark[]): HomographyFit | HomographyRefusal {
  if (marks.some(({ ground, picture }) => ![ground.x, ground.y, picture.x, picture.y].every(Number.isFinite)))
    throw new Error('fitHomography: coordinates must be finite');
  if (marks.length < 4)
    return refused(
      'too-few',
      marks.map((_, i) => i),
    );
  const shared = sharedPlace(marks);
  if (shared !== null) return refused('same-place', shared);
  const onALine = refused(
    'on-a-line',
    marks.map((_, i) => i),
  );
  if (!inGeneralPosition(marks)) return onALine;

  const ground = normalisation(marks.map((mark) => mark.ground));
  const picture = normalisation(marks.map((mark) => mark.picture));
  const pairs = marks.map((mark) => ({ from: moved(ground, mark.ground), to: moved(picture, mark.picture) }));
  const { solution, others } = directSolution(pairs);
  const start = facing(solution, pairs);
  const beyond = overHorizon(start, pairs);
  if (beyond.length > 0) return refused('over-horizon', beyond);

  // All eight ways to change a map other than its free scale: no entry has to be fixed, so none can be near 0.
  const at = (by: Vector): number[] =>
    start.map((value, i) => value + others.reduce((sum, other, k) => sum + (other[i] ?? 0) * (by[k] ?? 0), 0));
  const fit = leastSquares(
    (by) => residualsOf(at(by), pairs)?.map((value) => value / picture.scale) ?? null,
    others.map(() => 0),
    others.map(() => 1),
  );
  if (fit === null || fit.covariance === null) return onALine;
  const found = at(fit.parameters);
  const depth = pairs.reduce((sum, { from }) => sum + depthOf(found, from), 0) / pairs.length;
  const outOfUnits = (entries: Vector): Matrix =>
    multiply(multiply(undone(picture), square(entries)), matrixOf(ground)).map((row) =>
      row.map((value) => value / depth),
    );
  const homography = homographyOf(outOfUnits(found));
  if (homography === null) return onALine;
  const residuals = marks.map((_, i) => Math.hypot(fit.residuals[2 * i] ?? 0, fit.residuals[2 * i + 1] ?? 0));
  return {
    state: 'fitted',
    homography,
    residuals,
    rms: Math.sqrt(fit.sum / marks.length),
    scatter: marks.length === 4 ? null : Math.sqrt(fit.sum / (2 * marks.length - 8)),
    spread: covarianceRoot(fit.covariance).map((root) => outOfUnits(timesVector(transpose(others), root))),
  };
}

/**
 * The map at another place of its scatter: `z` standard normal values, one for each of `spread`, for placing errors of
 * `sigma` px. null when it cannot be undone there.
 */
export function scatteredHomography(fit: HomographyFit, z: Vector, sigma: number): Homography | null {
  return homographyOf(
    fit.homography.groundToPicture.map((row, i) =>
      row.map((value, j) =>
        fit.spread.reduce((sum, matrix, k) => sum + sigma * (z[k] ?? 0) * entry(matrix, i, j), value),
      ),
    ),
  );
}

function refused(reason: HomographyRefusal['reason'], marks: readonly number[]): HomographyRefusal {
  return { state: 'refused', reason, marks };
}

/** Of the two signs of a map the one that has more of the marks in front of the camera. */
function facing(entries: Vector, pairs: readonly Pair[]): Vector {
  const depths = pairs.map(({ from }) => depthOf(entries, from));
  const isBehind = 2 * depths.filter((depth) => depth < 0).length > depths.length;
  return isBehind ? entries.map((value) => -value) : entries;
}

/** No lens sees one place on the ground a thousand times as near as another: such a mark lies on the horizon. */
const NEAREST = 1e-3;

function overHorizon(entries: Vector, pairs: readonly Pair[]): readonly number[] {
  const depths = pairs.map(({ from }) => depthOf(entries, from));
  const limit = NEAREST * Math.max(...depths.map(Math.abs));
  return depths.flatMap((depth, i) => (depth > limit ? [] : [i]));
}

function depthOf(entries: Vector, { x, y }: GroundPoint): number {
  return (entries[6] ?? Number.NaN) * x + (entries[7] ?? Number.NaN) * y + (entries[8] ?? Number.NaN);
}

/** What is left between the marks and where the map puts them, x and y in turn; null when it puts one over the horizon. */
function residualsOf(entries: Vector, pairs: readonly Pair[]): Vector | null {
  if (overHorizon(entries, pairs).length > 0) return null;
  const at = (i: number): number => entries[i] ?? Number.NaN;
  return pairs.flatMap(({ from, to }) => {
    const depth = depthOf(entries, from);
    return [
      (at(0) * from.x + at(1) * from.y + at(2)) / depth - to.x,
      (at(3) * from.x + at(4) * from.y + at(5)) / depth - to.y,
    ];
  });
}

function square(entries: Vector): Matrix {
  return [entries.slice(0, 3), entries.slice(3, 6), entries.slice(6, 9)];
}
