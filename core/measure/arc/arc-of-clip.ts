import { wrapAngle } from '../../geometry/angle.ts';
import { LOW_PHASE } from '../../geometry/arc.ts';
import type { Arc } from '../../geometry/arc.ts';
import { covarianceRoot } from '../../geometry/covariance-root.ts';
import { fitArc, fitFreeArc } from '../../geometry/fit-arc.ts';
import type { ArcFit, ArcRefusal } from '../../geometry/fit-arc.ts';
import type { SwingPoint } from '../../geometry/point.ts';
import type { PathPlace } from '../../model/mark.ts';
import { restsOn } from '../readings/place-inputs.ts';
import { valueAt } from '../uncertainty/value-at.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';

/** What an arc is fitted to. */
export interface ArcPlaces {
  readonly places: readonly PathPlace[];
  /** The same places upright, for a lean of the true vertical in radians, with inputs of `loose` off by so much (none: by 0). */
  readonly upright: (tilt: number, off: readonly number[]) => readonly SwingPoint[];
  /** What the places depend on besides, told as how far it is off: the camera, and how far the ball lies from it. */
  readonly loose: readonly Quantity[];
  /** Placing error of each place, pixels, and the degrees of freedom that it is known with. */
  readonly sigma: number;
  readonly freedom: number;
}

/** Centre and radius of an arc for one list of input values. Pixels. */
export interface ArcNow {
  readonly centre: SwingPoint;
  readonly radius: number;
}

/** A fitted arc as three inputs of its own, and what tilt and incline do to it. */
export interface UncertainArc {
  readonly fit: ArcFit;
  /** The places that the arc was fitted to. */
  readonly places: readonly PathPlace[];
  /** The same, upright, as they were fitted. */
  readonly upright: readonly SwingPoint[];
  /** Placing error that the fit speaks of, pixels: that of the hand, or what is left between arc and places where that is clearly more. */
  readonly sigma: number;
  /** Three inputs of value 0 and u 1. */
  readonly quantities: readonly Quantity[];
  /** `first`: place of its first quantity in the list. `by`: how far its other inputs are off. */
  readonly at: (values: readonly number[], first: number, by: ArcOff) => ArcNow;
  /** The arc's `loose`, in the order that `by.loose` has them. */
  readonly loose: readonly Quantity[];
}

/** How far an arc's inputs are off what it was fitted at. */
export interface ArcOff {
  readonly tilt: number;
  readonly incline: number;
  readonly loose: readonly number[];
}

/**
 * Farther than this from the low point a club is no longer swung round one centre: shoulders and wrists change the radius.
 * Places beyond are left out. Ours: 75 degrees either side, of the 60 in all that a fit needs.
 */
export const FARTHEST_PLACE = (75 * Math.PI) / 180;

const MOST_TRIMS = 5;

/** Radians over which slopes along the tilt are taken: a tenth of a degree, small against what bends a fit. */
const TILT_STEP = Math.PI / 1800;

/** Fits an arc at a tilt and an incline. A refusal is that of the fit. */
export function fitUncertainArc(
  name: string,
  given: ArcPlaces,
  tilt: number,
  incline: number,
): UncertainArc | ArcRefusal {
  const trimmed = fitTrimmed(given, tilt, incline);
  if (typeof trimmed === 'string') return trimmed;
  const { fit, kept } = trimmed;
  const anew = (value: number, off: readonly number[]): Arc | null =>
    fitFreeArc(
      given.upright(value, off).filter((_, i) => kept[i] === true),
      incline,
    );
  const tilting = slopesBetween(anew(tilt - TILT_STEP, []), anew(tilt + TILT_STEP, []), 2 * TILT_STEP);
  const loosely = given.loose.map(({ u }, place) => {
    const off = (by: number) => given.loose.map((_, i) => (i === place ? by : 0));
    return u === 0 ? slopesBetween(null, null, 1) : slopesBetween(anew(tilt, off(-u)), anew(tilt, off(u)), 2 * u);
  });
  const places = given.places.filter((_, i) => kept[i] === true);
  const { sigma, rests } = scatterOf(name, given, fit.residual, places.length);
  const root = covarianceRoot(fit.covariance);
  const quantities = root.map((_, k): Quantity => ({
    name: `${name} ${String(k + 1)}`,
    value: 0,
    u: 1,
    source: 'placing',
    ...rests,
  }));
  const at: UncertainArc['at'] = (values, first, by) => {
    const off = (part: 0 | 1 | 2) =>
      root.reduce((sum, vector, k) => sum + sigma * valueAt(values, first + k) * (vector[part] ?? 0), 0);
    const { centre, radius, perIncline } = fit;
    const loose = (of: keyof ArcSlopes) =>
      by.tilt * tilting[of] + loosely.reduce((sum, slopes, i) => sum + (by.loose[i] ?? 0) * slopes[of], 0);
    return {
      centre: {
        along: centre.along + off(0) + loose('along') + by.incline * perIncline.centre.along,
        up: centre.up + off(1) + loose('up') + by.incline * perIncline.centre.up,
      },
      radius: radius + off(2) + loose('radius') + by.incline * perIncline.radius,
    };
  };
  const upright = given.upright(tilt, []).filter((_, i) => kept[i] === true);
  return { fit, places, upright, sigma, quantities, at, loose: given.loose };
}

/** What an arc's centre and radius do along an input. */
interface ArcSlopes {
  readonly along: number;
  readonly up: number;
  readonly radius: number;
}

/** None where the arc cannot be fitted on either side. */
function slopesBetween(less: Arc | null, more: Arc | null, apart: number): ArcSlopes {
  const per = (of: (arc: Arc) => number) => (less === null || more === null ? 0 : (of(more) - of(less)) / apart);
  return {
    along: per(({ centre }) => centre.along),
    up: per(({ centre }) => centre.up),
    radius: per((arc) => arc.radius),
  };
}

/** One-sided 95 % of a normal distribution: what is left is clearly more than the hand's error beyond so many of its own. */
const CLEARLY = 1.645;

/**
 * What the places scatter by: the hand's placing error, unless more is left between arc and places than it explains (a
 * standard deviation of `freedom` degrees is itself unsure by 1 / sqrt(2 freedom)). Then it is the places that tell, with
 * as many degrees of freedom as they have beyond the arc's three.
 */
function scatterOf(name: string, given: ArcPlaces, residual: number, count: number) {
  const freedom = count - 3;
  const left = residual * Math.sqrt(count / freedom);
  const isMore = left > given.sigma * (1 + CLEARLY / Math.sqrt(2 * freedom));
  return isMore
    ? { sigma: left, rests: { rests: { on: name, freedom } } }
    : { sigma: given.sigma, rests: restsOn('clubhead', given.freedom) };
}

/** Fits, leaves out what lies too far from the low point, and fits again until nothing changes. */
function fitTrimmed(
  { upright }: ArcPlaces,
  tilt: number,
  incline: number,
): { readonly fit: ArcFit; readonly kept: readonly boolean[] } | ArcRefusal {
  const points = upright(tilt, []);
  let kept = points.map(() => true);
  for (let step = 0; ; step += 1) {
    const used = points.filter((_, i) => kept[i] === true);
    const result = fitArc(used, incline);
    if (result.state === 'refused') return result.reason;
    const { phases } = result.arc;
    let place = 0;
    const next = kept.map((is) => {
      if (!is) return false;
      const phase = phases[place] ?? LOW_PHASE;
      place += 1;
      return Math.abs(wrapAngle(phase - LOW_PHASE)) <= FARTHEST_PLACE;
    });
    if (step === MOST_TRIMS || next.every((is, i) => is === kept[i])) return { fit: result.arc, kept };
    kept = next;
  }
}
