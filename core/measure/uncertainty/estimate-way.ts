import { wrapAngle } from '../../geometry/angle.ts';
import { covarianceRoot } from '../../geometry/covariance-root.ts';
import { budgetOfFirstOrder } from './budget.ts';
import { coverageOf } from './coverage.ts';
import type { Estimate } from './estimate.ts';
import { propagateFirstOrder } from './uncertain.ts';
import type { Inputs } from './uncertain.ts';

/** From one place to another in a plane. */
export interface Way {
  readonly x: number;
  readonly y: number;
}

/** Ends that may be the same place: 95 % of all places round one lie within 2.45 (chi squared, two degrees of freedom), along a line within 1.96. */
const MAYBE_NONE = Math.sqrt(5.991464547) / 1.96;

/**
 * A way shorter than `NEAR` of its largest error bends round the place that it starts from: its length is taken to be less sure
 * by `NEARBY`. Ours: of all ways, error ellipses and directions that were simulated none then held less than 92.5 %.
 */
const NEAR = 3;
const NEARBY = 2.1 / 1.96;

/**
 * The length of a way (>= 0) or its direction (radians in (-pi, pi], from +y toward +x), with what both ends' errors make of
 * it. On the ground these are many times larger away from the camera than across it, so they are taken as the ellipse that
 * they are, and the length and direction are what places of that ellipse have: first order for the way, but none for what is
 * read from it. null where the formula gives no way, and for the direction of none.
 */
export function estimateWay(
  formula: (values: readonly number[]) => Way | null,
  inputs: Inputs,
  wanted: 'length' | 'direction',
): Estimate | null {
  const first = propagateFirstOrder((values) => {
    const way = formula(values);
    return way === null || !Number.isFinite(way.x) || !Number.isFinite(way.y) ? null : [way.x, way.y];
  }, inputs);
  const [x, y] = first?.values ?? [];
  if (first === null || x === undefined || y === undefined) return null;
  const way = { x, y };
  const length = Math.hypot(x, y);
  if (wanted === 'direction' && length === 0) return null;
  const ellipse = ellipseOf(first.covariance);
  const value = wanted === 'length' ? length : Math.atan2(x, y);
  // Along the way for its length, across it for its direction; a way of no length along its largest error.
  const along = length > 0 ? { x: x / length, y: y / length } : unitOf(ellipse.long);
  const [dx, dy] = wanted === 'length' ? [along.x, along.y] : [along.y, -along.x];
  const [slopesX = [], slopesY = []] = first.jacobian;
  const jacobian = [slopesX.map((slope, i) => dx * slope + dy * (slopesY[i] ?? 0))];
  const coverage = coverageOf({ ...first, jacobian }, inputs);
  const [below, above] = wanted === 'length' ? lengthsIn(way, ellipse, coverage) : directionsIn(way, ellipse, coverage);
  // The interval is not even about the value; u is that of one as wide that is. A direction's is that of its longer side: in a
  // difference of two nobody knows which sides face each other, and the mean of both holds in 93.6 of 100.
  const u = (wanted === 'direction' ? Math.max(-below, above) : (above - below) / 2) / coverage;
  const parts = budgetOfFirstOrder({ ...first, jacobian }, inputs);
  const together = Math.hypot(...parts.map((part) => part.u));
  return {
    value,
    u,
    interval: [value + below, value + above],
    coverage,
    method: 'first-order',
    shared: [],
    budget: together === 0 ? [] : parts.map((part) => ({ ...part, u: (part.u * u) / together })),
  };
}

/** Half axes of an error ellipse of one standard deviation; the shorter one is never quite 0. */
interface Ellipse {
  readonly long: Way;
  readonly short: Way;
}

const FLATTEST = 1e-9;

function ellipseOf(covariance: readonly (readonly number[])[]): Ellipse {
  const [[longX = 0, longY = 0] = [], [shortX = 0, shortY = 0] = []] = covarianceRoot(covariance);
  const long = { x: longX, y: longY };
  const least = FLATTEST * Math.hypot(longX, longY);
  const short =
    Math.hypot(shortX, shortY) > least ? { x: shortX, y: shortY } : { x: -longY * FLATTEST, y: longX * FLATTEST };
  return { long, short };
}

/** The way told in half axes: of length 1 on the ellipse's edge, and Infinity where there is no error at all. */
function inAxes({ x, y }: Way, { long, short }: Ellipse): Way {
  const on = (axis: Way): number => {
    const square = axis.x ** 2 + axis.y ** 2;
    return square === 0 ? Infinity : (x * axis.x + y * axis.y) / square;
  };
  return { x: on(long), y: on(short) };
}

/** How far the lengths in the ellipse lie below and above the way's own; down to no length where that may be. */
function lengthsIn(way: Way, ellipse: Ellipse, coverage: number): readonly [number, number] {
  const length = Math.hypot(way.x, way.y);
  const { long, short } = ellipse;
  const away = Math.hypot(inAxes(way, ellipse).x, inAxes(way, ellipse).y);
  const isNear = length < NEAR * Math.hypot(long.x, long.y);
  const times = coverage * (isNear ? NEARBY : 1);
  const at = (turn: number): number => {
    const [cos, sin] = [times * Math.cos(turn), times * Math.sin(turn)];
    return Math.hypot(way.x + cos * long.x + sin * short.x, way.y + cos * long.y + sin * short.y);
  };
  const farthest = -least((turn) => -at(turn));
  const nearest = away <= Math.max(times, MAYBE_NONE * coverage) ? 0 : least(at);
  return [nearest - length, farthest - length];
}

const STYLES = 48;
const HALVINGS = 40;

/** The least of a function of an angle: the best of some looks round, and from there by ever smaller steps. */
function least(of: (turn: number) => number): number {
  let [best, turn, step] = [Infinity, 0, (2 * Math.PI) / STYLES];
  for (let look = 0; look < STYLES; look += 1)
    if (of(look * step) < best) [best, turn] = [of(look * step), look * step];
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    step /= 2;
    for (const by of [-step, step]) {
      const value = of(turn + by);
      if (value < best) [best, turn] = [value, turn + by];
    }
  }
  return best;
}

/**
 * How far the directions in the ellipse turn from the way's own, radians: those of its tangents from where the way starts
 * (E. C. Fieller, "Some problems in interval estimation", J. Roy. Stat. Soc. B 16 (1954) 175-185). Any, where the way may be none.
 */
function directionsIn(way: Way, ellipse: Ellipse, coverage: number): readonly [number, number] {
  const { long, short } = ellipse;
  const told = inAxes(way, ellipse);
  const away = Math.hypot(told.x, told.y);
  if (away <= MAYBE_NONE * coverage) return [-Math.PI, Math.PI];
  if (away === Infinity) return [0, 0];
  // In half axes the ellipse is a circle: its tangents lie at equal angles on both sides.
  const turn = Math.asin(coverage / away);
  const [one, other] = [-turn, turn].map((by) => {
    const [cos, sin] = [Math.cos(by), Math.sin(by)];
    const [a, b] = [told.x * cos - told.y * sin, told.x * sin + told.y * cos];
    const direction = Math.atan2(a * long.x + b * short.x, a * long.y + b * short.y);
    return wrapAngle(direction - Math.atan2(way.x, way.y));
  });
  return [Math.min(one ?? 0, other ?? 0), Math.max(one ?? 0, other ?? 0)];
}

function unitOf({ x, y }: Way): Way {
  const size = Math.hypot(x, y);
  return size === 0 ? { x: 1, y: 0 } : { x: x / size, y: y / size };
}
