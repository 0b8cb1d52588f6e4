import { toDegrees, wrapAngle } from '../../geometry/angle.ts';
import type { BudgetPart, SharedPart } from '../../model/reading.ts';
import { budgetByTrials, budgetOfFirstOrder, withPart } from './budget.ts';
import { coverageOf } from './coverage.ts';
import { movedOne, propagateFirstOrder, propagateMonteCarlo } from './uncertain.ts';
import type { FirstOrder, Inputs, MonteCarlo, Quantity } from './uncertain.ts';

/** A value with its uncertainty, in the unit of the model. */
export interface Estimate {
  readonly value: number;
  readonly u: number;
  readonly interval: readonly [number, number];
  /** The ± is this many times u. */
  readonly coverage: number;
  readonly method: 'first-order' | 'monte-carlo';
  /** What of u comes from where, in the unit of the model. */
  readonly budget: readonly BudgetPart[];
  /** What of u other readings have too, in the unit of the model. */
  readonly shared: readonly SharedPart[];
}

export interface EstimateOptions {
  /** `angle`: radians, differences are taken the short way round. `number`: anything else. */
  readonly kind: 'angle' | 'number';
  /** For angles: radians after which the value repeats; 2 pi when left out, pi for a line that has no direction. */
  readonly period?: number;
  /** The formula has edges (head box): always by Monte Carlo. */
  readonly edges?: boolean;
  /** What the value can be at all; the interval is cut to it. */
  readonly range?: readonly [number, number];
  /** By how much the value is known to be off for want of a correction: counts as u, and is the same for the same player. */
  readonly bias?: number;
}

/** 95 % of a normal distribution lie within this many standard deviations. */
export const COVERAGE_FACTOR = 1.96;

/**
 * An angle less sure than this (0.1 rad, about 6 degrees) bends too much for first order: its line is then shorter
 * than 14 placing errors. Ours.
 */
export const NEARLY_FREE_ANGLE = 0.1;

/** First order is left when the bend of the formula within one u adds more than this part of u. Ours. */
const BEND = 0.1;

/** Enough for u to 1 or 2 % (see `drawsOf`), below what ± shows, and quick enough to follow a dragged point. */
const TRIALS = 1000;
const SEED = 20260512;

/**
 * Value and uncertainty of one formula. First order where it holds; else an angle as `shortLine` says, anything else by
 * trials. Folds of angles (a straight leg, an upright line) keep first order: folding two values never takes them farther
 * apart, so that the interval covers at least as often as without the fold.
 */
export function estimate(
  formula: (values: readonly number[]) => number | null,
  inputs: Inputs,
  options: EstimateOptions,
): Estimate | null {
  const value = formula(inputs.quantities.map((quantity) => quantity.value));
  if (value === null || !Number.isFinite(value)) return null;
  const deviation = (values: readonly number[]): readonly [number] | null => {
    const result = formula(values);
    if (result === null) return null;
    return [options.kind === 'angle' ? wrapAngle(result - value, options.period) : result - value];
  };
  const first = propagateFirstOrder(deviation, inputs);
  if (first === null) return null;
  const products = productsOf(deviation, inputs);
  const { range = [-Infinity, Infinity], bias = 0 } = options;
  const u = Math.hypot(Math.sqrt(Math.max(0, first.covariance[0]?.[0] ?? 0)), products, bias);
  const coverage = coverageOf(first, inputs, Math.hypot(products, bias));
  const shared = sharedOf(first, inputs, bias);
  const within = (below: number, above: number): readonly [number, number] => [
    Math.max(range[0], value + below),
    Math.min(range[1], value + above),
  ];
  const isSure = options.kind === 'angle' ? u <= NEARLY_FREE_ANGLE : bendOf(deviation, inputs) <= BEND * u;
  const byFormula = (wider: number): Estimate => {
    const parts = withPart(withPart(budgetOfFirstOrder(first, inputs), 'camera', products), 'depth', bias);
    const budget = parts.map((part) => ({ ...part, u: part.u * wider }));
    const half = coverage * u * wider;
    return { value, u: u * wider, interval: within(-half, half), coverage, method: 'first-order', budget, shared };
  };
  if (isSure && options.edges !== true) return byFormula(1);
  if (options.kind === 'angle' && options.edges !== true)
    return byFormula(shortLine(coverage * u, options.period) / (coverage * u));
  const sample = propagateMonteCarlo(deviation, inputs, { trials: TRIALS, seed: SEED });
  if (sample === null) return null;
  const [larger, below, above] = nearFold(sample, u, COVERAGE_FACTOR);
  // The sample knows no freedom: its interval is widened by as much as the factor is.
  const wider = coverage / COVERAGE_FACTOR;
  const [low, high] = [below * wider, above * wider];
  const budget = budgetByTrials(deviation, inputs, SEED);
  return { value, u: larger, interval: within(low, high), coverage, method: 'monte-carlo', budget, shared };
}

/**
 * What products of two inputs add to u: sqrt(sum of (f_ij u_i u_j) squared), the term of second order that first order leaves
 * out where one of the two has no slope of its own (JCGM 100:2008, 5.1.2, note). f_ij from the four corners.
 */
function productsOf(
  deviation: (values: readonly number[]) => readonly [number] | null,
  { quantities, products = [] }: Inputs,
): number {
  const values = quantities.map((quantity) => quantity.value);
  const added = products.map(([i, j]) => {
    const [one, other] = [quantities[i], quantities[j]];
    if (one === undefined || other === undefined || one.u === 0 || other.u === 0) return 0;
    const corner = (a: number, b: number): number => {
      [values[i], values[j]] = [one.value + a * one.u, other.value + b * other.u];
      const off = deviation(values)?.[0] ?? 0;
      [values[i], values[j]] = [one.value, other.value];
      return off;
    };
    return (corner(1, 1) - corner(1, -1) - corner(-1, 1) + corner(-1, -1)) / 4;
  });
  return Math.hypot(...added);
}

/** The signed part of each input whose error other readings have too, and the bias. */
function sharedOf({ jacobian }: FirstOrder, { quantities }: Inputs, bias: number): readonly SharedPart[] {
  const parts = quantities.flatMap(({ name, u, shared }, i): readonly SharedPart[] =>
    shared === undefined || u === 0 ? [] : [{ name, by: shared, part: (jacobian[0]?.[i] ?? 0) * u }],
  );
  return bias === 0 ? parts : [...parts, { name: 'perspective', by: 'player', part: bias }];
}

/**
 * Half of the interval of the direction of a short line, radians, from what first order makes of it: its arc sine. The true
 * direction is one across which the ends are no more than 1.96 of their errors apart (E. C. Fieller, "Some problems in interval
 * estimation", J. Roy. Stat. Soc. B 16 (1954) 175-185), which for errors that are the same all round holds exactly, however
 * short the line. A line shorter than 1.96 of its errors may lie any way: half of the period.
 */
function shortLine(half: number, period: number = 2 * Math.PI): number {
  return half < 1 ? Math.asin(half) : period / 2;
}

/**
 * Of a number: u is the larger of the two, and the interval the smallest one that holds the sample's shortest 95 % interval
 * and 1.96 u either side. Both steps are ours: near a fold (the ridge between two box edges, a distance of nearly 0) the
 * sample alone is biased outward and its interval covers the truth too seldom.
 */
function nearFold({ u, shortest }: MonteCarlo, first: number, coverage: number): readonly [number, number, number] {
  const larger = Math.max(first, u);
  return [larger, Math.min(shortest[0], -coverage * larger), Math.max(shortest[1], coverage * larger)];
}

/** An estimate in radians as one in degrees. */
export function inDegrees({ value, u, interval: [low, high], budget, shared, ...rest }: Estimate): Estimate {
  return {
    ...rest,
    value: toDegrees(value),
    u: toDegrees(u),
    interval: [toDegrees(low), toDegrees(high)],
    budget: budget.map((part) => ({ ...part, u: toDegrees(part.u) })),
    shared: shared.map((each) => ({ ...each, part: toDegrees(each.part) })),
  };
}

/** Sum of the formula's second differences over one u of each input: how far it bends within its uncertainty. */
function bendOf(deviation: (values: readonly number[]) => readonly [number] | null, inputs: Inputs): number {
  const at = movedOne(
    inputs.quantities.map((quantity) => quantity.value),
    deviation,
  );
  const bend = (quantity: Quantity, index: number): number => {
    const ahead = at(index, quantity.u);
    const behind = at(index, -quantity.u);
    if (ahead === null || behind === null) return Infinity;
    return Math.abs(ahead[0] + behind[0]) / 2;
  };
  return inputs.quantities.reduce((sum, quantity, index) => sum + (quantity.u === 0 ? 0 : bend(quantity, index)), 0);
}
