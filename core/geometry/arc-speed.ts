import { wrapAngle } from './angle.ts';
import { nearestOnArc } from './arc.ts';
import type { Arc } from './arc.ts';
import type { ArcFit } from './fit-arc.ts';
import { entry, solve } from './linear.ts';
import type { SwingPoint } from './point.ts';

/** A place of the clubhead and when it was there, seconds. */
export interface TimedPlace extends SwingPoint {
  readonly seconds: number;
}

/** Standard uncertainties of what the speed is made from, each >= 0. */
export interface SpeedErrors {
  /** Pixels, of each coordinate of each place. */
  readonly placing: number;
  /** Seconds, of each time by itself. An error that all times share changes no speed. */
  readonly timing: number;
  /** Radians, of the arc's incline. */
  readonly incline: number;
}

export interface ArcSpeed {
  /** Pixels a second along the arc in its own plane, at the instant; + when the low point is passed toward the target. */
  readonly speed: number;
  /** Radians a second of phase; `speed` is this times the radius. */
  readonly turning: number;
  /** Standard uncertainty of `speed`, first order, and its parts, whose squares add up to its square. */
  readonly u: number;
  readonly parts: SpeedErrors;
}

/** Why there is no speed; checked in this order. */
export type SpeedRefusal =
  /** Fewer than `count` places at or before the instant. */
  | 'too-few-places'
  /** The instant is later than the last place by more than the places' mean interval. */
  | 'instant-too-far';

export type SpeedResult =
  | { readonly state: 'fitted'; readonly speed: ArcSpeed }
  | { readonly state: 'refused'; readonly reason: SpeedRefusal };

/** Places that a speed is made from: a parabola of the phase over time takes three, the others steady it. */
export const SPEED_PLACES = 5;
const FEWEST_PLACES = 4;

/**
 * The phase of each place on the arc against its time: radians, without jumps from one place to the next, the first in
 * (-pi, pi].
 */
export function phasesOf(arc: Arc, places: readonly SwingPoint[]): readonly number[] {
  let last: number | null = null;
  return places.map((place) => {
    const { phase } = nearestOnArc(arc, place);
    last = last === null ? phase : last + wrapAngle(phase - last);
    return last;
  });
}

/**
 * The clubhead's speed at an instant (impact, say) from the last `count` places at or before it: radius times the slope,
 * at the instant, of the parabola that fits their phases over time best. After impact the clubhead is slower, so later
 * places are left out. What the parabola leaves out (speeding up that itself changes) is not in the uncertainty.
 * `places`: all that `arc` was fitted to, in order of time. Since the same places make the arc and the phases, placing
 * goes through both at once. Throws where times do not rise, places are not the arc's, or `count` is below 4.
 */
export function speedOnArc(
  arc: ArcFit,
  places: readonly TimedPlace[],
  instant: number,
  errors: SpeedErrors,
  count: number = SPEED_PLACES,
): SpeedResult {
  if (places.length !== arc.phases.length) throw new Error("speedOnArc: the places must be the arc's own");
  if (!(count >= FEWEST_PLACES)) throw new Error('speedOnArc: at least 4 places are needed');
  if (places.some(({ seconds }, i) => !(seconds > (places[i - 1]?.seconds ?? -Infinity))))
    throw new Error('speedOnArc: times must rise');
  const before = places.filter(({ seconds }) => seconds <= instant);
  const first = before.length - count;
  const used = before.slice(Math.max(0, first));
  const [start, end] = [used[0], used.at(-1)];
  if (first < 0 || start === undefined || end === undefined) return { state: 'refused', reason: 'too-few-places' };
  const interval = (end.seconds - start.seconds) / (count - 1);
  if (instant - end.seconds > interval * (1 + 1e-9)) return { state: 'refused', reason: 'instant-too-far' };
  const speedWith = (changed: Arc, timed: readonly TimedPlace[]) => changed.radius * turningAt(changed, timed, instant);
  const parts = {
    placing:
      errors.placing *
      placingSlope(arc, places, first, (changed, all) => speedWith(changed, all.slice(first, first + count))),
    timing: errors.timing * timingSlope(used, interval, (timed) => speedWith(arc, timed)),
    incline: errors.incline * inclineSlope(arc, (changed) => speedWith(changed, used)),
  };
  const turning = turningAt(arc, used, instant);
  const u = Math.hypot(parts.placing, parts.timing, parts.incline);
  return { state: 'fitted', speed: { speed: arc.radius * turning, turning, u, parts } };
}

/** Slope at `instant` of the parabola through phases over time, radians a second. */
function turningAt(arc: Arc, places: readonly TimedPlace[], instant: number): number {
  const phases = phasesOf(arc, places);
  const unit = (places.at(-1)?.seconds ?? 0) - (places[0]?.seconds ?? 0);
  const rows = places.map(({ seconds }) => {
    const at = (seconds - instant) / unit;
    return [1, at, at * at];
  });
  const normal = [0, 1, 2].map((i) =>
    [0, 1, 2].map((j) => rows.reduce((sum, row) => sum + (row[i] ?? 0) * (row[j] ?? 0), 0)),
  );
  const right = [0, 1, 2].map((i) => rows.reduce((sum, row, k) => sum + (row[i] ?? 0) * (phases[k] ?? 0), 0));
  const parabola = solve(normal, right);
  if (parabola === null) throw new Error('speedOnArc: times too close to be told apart');
  return (parabola[1] ?? Number.NaN) / unit;
}

/** Steps of the differences: pixels and, below, parts of an interval and radians; small against what bends a speed. */
const STEP = 1e-3;

/** Root of the sum of squares of the speed's slopes along each coordinate of each place, per pixel. */
function placingSlope(
  arc: ArcFit,
  places: readonly TimedPlace[],
  first: number,
  speedWith: (arc: Arc, places: readonly TimedPlace[]) => number,
): number {
  const difference = (changed: (by: number) => number) => (changed(STEP) - changed(-STEP)) / (2 * STEP);
  const { centre } = arc;
  const alongArc = [
    difference((by) => speedWith({ ...arc, centre: { ...centre, along: centre.along + by } }, places)),
    difference((by) => speedWith({ ...arc, centre: { ...centre, up: centre.up + by } }, places)),
    difference((by) => speedWith({ ...arc, radius: arc.radius + by }, places)),
  ];
  let sum = 0;
  for (const [i, place] of places.entries()) {
    const { phase, outward } = nearestOnArc(arc, place);
    // How the point's distance changes with centre along, centre up and radius; the fit answers with -covariance times it.
    const pull = [
      -outward.along,
      -outward.up,
      -(outward.along * Math.cos(phase) + outward.up * Math.sin(arc.incline) * Math.sin(phase)),
    ];
    const answer = -alongArc.reduce(
      (total, slope, row) =>
        total + slope * pull.reduce((inner, value, column) => inner + entry(arc.covariance, row, column) * value, 0),
      0,
    );
    const moved = (key: 'along' | 'up') =>
      i < first
        ? 0
        : difference((by) =>
            speedWith(
              arc,
              places.map((other, j) => (j === i ? { ...other, [key]: other[key] + by } : other)),
            ),
          );
    sum += (moved('along') + answer * outward.along) ** 2 + (moved('up') + answer * outward.up) ** 2;
  }
  return Math.sqrt(sum);
}

/** The same along each time by itself, per second. */
function timingSlope(
  used: readonly TimedPlace[],
  interval: number,
  speedWith: (places: readonly TimedPlace[]) => number,
): number {
  const step = STEP * interval;
  const slopes = used.map((_, i) => {
    const shifted = (by: number) =>
      speedWith(used.map((other, j) => (j === i ? { ...other, seconds: other.seconds + by } : other)));
    return (shifted(step) - shifted(-step)) / (2 * step);
  });
  return Math.hypot(...slopes);
}

/** The speed's slope along the incline, the arc being fitted anew, per radian; >= 0. */
function inclineSlope(arc: ArcFit, speedWith: (arc: Arc) => number): number {
  const { centre, radius } = arc.perIncline;
  const turned = (by: number) =>
    speedWith({
      centre: { along: arc.centre.along + by * centre.along, up: arc.centre.up + by * centre.up },
      radius: arc.radius + by * radius,
      incline: arc.incline + by,
    });
  // Only the flatter side: an arc leans no further than upright.
  return Math.abs(turned(0) - turned(-STEP)) / STEP;
}
