import { wrapAngle } from './angle.ts';
import { LOW_PHASE, lowPointOf, nearestOnArc } from './arc.ts';
import type { Arc } from './arc.ts';
import { fitCircle } from './fit-circle.ts';
import { leastSquares } from './least-squares.ts';
import { multiply, transpose } from './linear.ts';
import type { Matrix } from './linear.ts';
import type { SwingPoint } from './point.ts';

/** An arc without a judgement of what the points can tell; see `fitArc`. */
export interface FreeArcFit extends Arc {
  /** Root mean square distance of the points from the arc in the picture, pixels, >= 0. */
  readonly residual: number;
  /** Of (centre along, centre up, radius), for points that each scatter by 1 px; null where they are not determined. */
  readonly covariance: Matrix | null;
  /** Phase of each point's nearest place on the arc, in the points' order, radians in (-pi, pi]. */
  readonly phases: readonly number[];
}

export interface ArcFit extends FreeArcFit {
  readonly covariance: Matrix;
  readonly low: SwingPoint;
  /** Of (low along, low up), for points that each scatter by 1 px. */
  readonly lowCovariance: Matrix;
  /** The points lie between these phases, radians, `from` in (-pi, pi] and `from` < `to`: all but their largest gap. */
  readonly from: number;
  readonly to: number;
  /** How far the low point lies past the nearest of the points, radians of phase; 0 = between them. */
  readonly beyond: number;
  /** What changes with the incline, pixels per radian: the points stay and the arc is fitted anew. */
  readonly perIncline: { readonly centre: SwingPoint; readonly radius: number; readonly low: SwingPoint };
}

/** Why points do not tell an arc; checked in this order. */
export type ArcRefusal =
  /** Fewer than `FEWEST_POINTS` different ones. */
  | 'too-few-points'
  /** They lie on a line, or so nearly that the radius is not determined. */
  | 'no-arc'
  /** They cover less than `SHORTEST_ARC` of it. */
  | 'too-short-arc'
  /** They lie on its upper side: what is open downwards is no clubhead's arc. */
  | 'opens-down'
  /** The low point lies more than `FARTHEST_LOW` past the last of them. */
  | 'low-point-too-far';

export type ArcResult =
  | { readonly state: 'fitted'; readonly arc: ArcFit }
  | { readonly state: 'refused'; readonly reason: ArcRefusal };

/** Three tell an arc; as many again show how well it fits. */
export const FEWEST_POINTS = 6;
/**
 * Radians of phase. Six points evenly over a part of an arc of 350 px, each off by 3 px both ways, 1,000 times
 * (tests/core/geometry/arc-limits.test.ts): what the low point's place along the target line scatters and the radius is
 * off by on the average, in % of the radius, at an incline of 45 degrees (at 60 a tenth less, upright a fifth less):
 *
 *     arc covered          30        40        50        60        75        90
 *     low in the middle    7, +29    2, +4     2, +2     1, +1     1, 0      1, 0
 *     low at the end      74, +31    9, +4     6, +1     5, +1     4, 0      3, 0
 *     low 10 past it     103, +28   12, +4     8, +1     6, +1     4, 0      3, 0
 *     low 20 past it      61, +20   15, +4     9, +1     7, +1     5, 0      3, 0
 *     low 30 past it      72, +18   17, +3    10, +1     7, +1     5, 0      4, 0
 *
 * A tenth is passed between 40 and 50 degrees. The limit is 60 since what is covered is itself told by the fit: of true
 * arcs of 50 degrees 4 to 7 in 100 get through, with a radius a fifth too small. At exactly 60 half get through, 6 % too
 * small in radius, their low point off by 6 %; from 70 on nearly all do and nothing is left of that.
 */
export const SHORTEST_ARC = (60 * Math.PI) / 180;
/**
 * Radians of phase. By the table 30 would do for scatter alone; but a club is no compass, and past the points the arc is
 * only supposed to go on.
 */
export const FARTHEST_LOW = (20 * Math.PI) / 180;

/** Over which part of sin(incline) the slope along the incline is taken. */
const INCLINE_STEP = 1e-3;

/** The arc of `fitFreeArc` with its low point, or the reason why the points do not tell it. Throws as `fitFreeArc`. */
export function fitArc(points: readonly SwingPoint[], incline: number): ArcResult {
  checkIncline(incline);
  const refused = (reason: ArcRefusal): ArcResult => ({ state: 'refused', reason });
  if (new Set(points.map(({ along, up }) => `${String(along)} ${String(up)}`)).size < FEWEST_POINTS)
    return refused('too-few-points');
  const free = fitFreeArc(points, incline);
  if (free === null || free.covariance === null) return refused('no-arc');
  const { from, to } = coveredPhases(free.phases);
  if (to - from < SHORTEST_ARC) return refused('too-short-arc');
  const beyond = distanceTo(LOW_PHASE, from, to);
  if (beyond > 0 && Math.sin((from + to) / 2) >= 0) return refused('opens-down');
  if (beyond > FARTHEST_LOW) return refused('low-point-too-far');
  const perIncline = slopeAlongIncline(points, free);
  if (perIncline === null) return refused('no-arc');
  const toLow = [
    [1, 0, 0],
    [0, 1, -Math.sin(incline)],
  ];
  const lowCovariance = multiply(multiply(toLow, free.covariance), transpose(toLow));
  const arc = { ...free, covariance: free.covariance, low: lowPointOf(free), lowCovariance, from, to, beyond };
  return { state: 'fitted', arc: { ...arc, perIncline } };
}

/**
 * The arc of a given incline that comes nearest to three or more points: least squares of the true distances to the
 * ellipse in the picture, since it is there that points are placed. Starts from `fitCircle` in the arc's own plane, which
 * at pi/2 is the answer itself. null for fewer than three different points and points on a line. Throws where the incline
 * is not in (0, pi/2].
 */
export function fitFreeArc(points: readonly SwingPoint[], incline: number): FreeArcFit | null {
  checkIncline(incline);
  const flat = Math.sin(incline);
  const start = fitCircle(points.map(({ along, up }) => ({ x: along, y: up / flat })));
  if (start === null) return null;
  const { radius: size, centre } = start;
  // In units of the radius, so that every parameter is of size 1.
  const arcOf = ([along = 0, up = 0, radius = 0]: readonly number[]): Arc => ({
    centre: { along: centre.x + size * along, up: flat * centre.y + size * up },
    radius: size * radius,
    incline,
  });
  const residuals = (parameters: readonly number[]) =>
    (parameters[2] ?? 0) > 0 ? points.map((point) => nearestOnArc(arcOf(parameters), point).distance / size) : null;
  // The nearest place is where the distance does not change along the arc: only what moves the arc outward counts.
  const slopes = (parameters: readonly number[]) => {
    const arc = arcOf(parameters);
    return points.map((point) => {
      const { phase, outward } = nearestOnArc(arc, point);
      const grows = outward.along * Math.cos(phase) + outward.up * flat * Math.sin(phase);
      return [-outward.along, -outward.up, -grows];
    });
  };
  const fit = leastSquares(residuals, [0, 0, 1], [1, 1, 1], slopes);
  if (fit === null) return null;
  const arc = arcOf(fit.parameters);
  return {
    ...arc,
    residual: size * Math.sqrt(fit.sum / points.length),
    covariance: fit.covariance,
    phases: points.map((point) => nearestOnArc(arc, point).phase),
  };
}

function checkIncline(incline: number): void {
  if (!(incline > 0 && incline <= Math.PI / 2)) throw new Error('fitArc: the incline must be in (0, pi/2]');
}

/** All the way round but for the largest gap between neighbours. */
function coveredPhases(phases: readonly number[]): { readonly from: number; readonly to: number } {
  const sorted = [...phases].sort((a, b) => a - b);
  const gaps = sorted.map((phase, i) => phase - (sorted[i - 1] ?? (sorted.at(-1) ?? 0) - 2 * Math.PI));
  const widest = gaps.indexOf(Math.max(...gaps));
  const from = sorted[widest] ?? 0;
  return { from, to: from + 2 * Math.PI - (gaps[widest] ?? 0) };
}

function distanceTo(phase: number, from: number, to: number): number {
  const half = (to - from) / 2;
  return Math.max(0, Math.abs(wrapAngle(phase - from - half)) - half);
}

/** By fitting anew at sin(incline) on both sides, which is how the incline enters; upright there is one side only. */
function slopeAlongIncline(points: readonly SwingPoint[], { incline }: Arc): ArcFit['perIncline'] | null {
  const flat = Math.sin(incline);
  const [less, more] = [flat * (1 - INCLINE_STEP), Math.min(1, flat * (1 + INCLINE_STEP))];
  const [before, after] = [fitFreeArc(points, Math.asin(less)), fitFreeArc(points, Math.asin(more))];
  if (before === null || after === null) return null;
  const slope = (of: (arc: Arc) => number) => ((of(after) - of(before)) / (more - less)) * Math.cos(incline);
  return {
    centre: { along: slope(({ centre }) => centre.along), up: slope(({ centre }) => centre.up) },
    radius: slope(({ radius }) => radius),
    low: { along: slope((arc) => lowPointOf(arc).along), up: slope((arc) => lowPointOf(arc).up) },
  };
}
