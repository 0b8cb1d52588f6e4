import type { SharedPart, UncertaintySource } from '../../model/reading.ts';
import { drawsOf } from './draws.ts';
import type { Spread } from './draws.ts';

/** What a standard uncertainty was estimated from. */
export interface RestsOn {
  /** Which estimate, e.g. a body point's. */
  readonly on: string;
  /** Its degrees of freedom, > 0 and finite. */
  readonly freedom: number;
}

/** One measured input. Two results that depend on the same input are correlated through it: list it once, share it. */
export interface Quantity {
  readonly name: string;
  readonly value: number;
  /** Standard uncertainty, >= 0. */
  readonly u: number;
  /** How its error is spread; normal when left out. Rectangular: even over value +- sqrt(3) u. */
  readonly spread?: Spread;
  /** What the error comes from, for the budget; placing when left out. */
  readonly source?: UncertaintySource;
  /** The estimate that u rests on, where it is known from few repeats; inputs that name the same one share its error. */
  readonly rests?: RestsOn;
  /** Where u comes from several sources: their own parts, independent, with u the root of the sum of their squares. */
  readonly parts?: readonly { readonly source: UncertaintySource; readonly u: number }[];
  /** The error is the same in another reading of this player (`player`), of this camera on this day (`day`), or by these marks (`marks`). */
  readonly shared?: Sharing;
}

/** How far an error reaches: to all readings of one player by one coach, to those of one day, or of the same marks. */
export type Sharing = SharedPart['by'];

/** Correlation coefficient of two inputs, by their places in the list; in [-1, 1]. Pairs not listed are independent. */
export interface Correlation {
  readonly first: number;
  readonly second: number;
  readonly r: number;
}

export interface Inputs {
  readonly quantities: readonly Quantity[];
  readonly correlations?: readonly Correlation[];
  /** Pairs of independent inputs, by their places, of which one scales what the other does: a turned camera, and a depth. */
  readonly products?: readonly (readonly [number, number])[];
}

/** Results from the inputs' values, in the order of the list; null where the model is undefined. */
export type Model = (values: readonly number[]) => readonly number[] | null;

export interface FirstOrder {
  readonly values: readonly number[];
  /** jacobian[result][input]: slope of each result along each input. */
  readonly jacobian: readonly (readonly number[])[];
  /** covariance[i][j] of results i and j; the diagonal holds u squared. */
  readonly covariance: readonly (readonly number[])[];
}

/**
 * Step of the differences, as a part of an input's uncertainty. Central differences err by step^2 f''' / 6: for a line
 * of 100 px placed to 3 px that is below 1e-6 of the slope, while rounding stays below 1e-11.
 */
const STEP = 0.01;

/**
 * First-order propagation, JCGM 100:2008 clause 5: covariance = J V J^T with J from central differences. Where the model
 * has a fold exactly at the inputs (a leg that is just straight) the two sides' slopes disagree and their mean would be
 * 0; the steeper side is taken, which is the slope of both but for its sign. null where the model is undefined.
 */
export function propagateFirstOrder(model: Model, inputs: Inputs): FirstOrder | null {
  const { quantities } = inputs;
  const start = quantities.map((quantity) => quantity.value);
  const values = model(start);
  if (values === null) return null;
  const at = movedOne(start, model);
  const slopes = quantities.map((quantity, index) => slopesAlong(at, values, index, quantity));
  const jacobian = values.map((_, result) => slopes.map((slope) => slope[result] ?? 0));
  const covariance = jacobian.map((rowA) => jacobian.map((rowB) => covarianceOf(rowA, rowB, inputs)));
  return { values, jacobian, covariance };
}

/**
 * A model at a start of which one value is moved by so much, over and over: all such lists are the same one, which is put back.
 * A reading is asked hundreds of times so.
 */
export function movedOne<Answer>(start: readonly number[], model: (values: readonly number[]) => Answer) {
  const values = [...start];
  return (index: number, by: number): Answer => {
    const before = values[index] ?? Number.NaN;
    values[index] = before + by;
    const answer = model(values);
    values[index] = before;
    return answer;
  };
}

/** Of two results, from the slopes of each along every input. */
function covarianceOf(rowA: readonly number[], rowB: readonly number[], inputs: Inputs): number {
  const { quantities, correlations = [] } = inputs;
  if (correlations.length === 0)
    return quantities.reduce((sum, { u }, i) => sum + (rowA[i] ?? 0) * u * u * (rowB[i] ?? 0), 0);
  return inputCovariance(inputs).reduce(
    (sum, row, i) => sum + (rowA[i] ?? 0) * row.reduce((inner, value, j) => inner + value * (rowB[j] ?? 0), 0),
    0,
  );
}

function slopesAlong(
  at: (index: number, by: number) => readonly number[] | null,
  values: readonly number[],
  index: number,
  quantity: Quantity,
): readonly number[] {
  // An input without uncertainty adds nothing; its slope is still reported, over a step that suits its size.
  const step = quantity.u > 0 ? STEP * quantity.u : 1e-6 * Math.max(1, Math.abs(quantity.value));
  const slopesOver = (by: number): readonly (number | null)[] => {
    const moved = at(index, by);
    return values.map((value, result) => (moved === null ? null : ((moved[result] ?? value) - value) / by));
  };
  const ahead = slopesOver(step);
  const behind = slopesOver(-step);
  return values.map((_, result) => {
    const forward = ahead[result] ?? null;
    const backward = behind[result] ?? null;
    if (forward === null || backward === null) return forward ?? backward ?? 0;
    if (forward * backward >= 0) return (forward + backward) / 2;
    // Opposite signs: a smooth extremum, where the slope shrinks with the step, or a fold, where it stays.
    const steeper =
      Math.abs(forward) >= Math.abs(backward) ? { slope: forward, by: step } : { slope: backward, by: -step };
    const nearer = slopesOver(steeper.by / 4)[result] ?? 0;
    return Math.abs(nearer) > 0.9 * Math.abs(steeper.slope) ? steeper.slope : (forward + backward) / 2;
  });
}

function inputCovariance(inputs: Inputs): number[][] {
  const { quantities, correlations = [] } = inputs;
  const matrix = quantities.map((a, i) => quantities.map((_, j) => (i === j ? a.u * a.u : 0)));
  for (const { first, second, r } of correlations) {
    const rowA = matrix[first];
    const rowB = matrix[second];
    const a = quantities[first];
    const b = quantities[second];
    if (rowA === undefined || rowB === undefined || a === undefined || b === undefined || first === second)
      throw new Error('correlations: first and second must be places of two different inputs');
    if (!(Math.abs(r) <= 1)) throw new Error('correlations: r must lie in [-1, 1]');
    rowA[second] = r * a.u * b.u;
    rowB[first] = r * a.u * b.u;
  }
  return matrix;
}

export interface MonteCarlo {
  readonly mean: number;
  /** Standard deviation of the sample. */
  readonly u: number;
  /** 95 % of the sample with 2.5 % left out at each end (JCGM 101:2008, 7.7.2). */
  readonly symmetric: readonly [number, number];
  /** The shortest interval that holds 95 % of the sample (JCGM 101:2008, 7.7.4). */
  readonly shortest: readonly [number, number];
  /** Trials at which the model was defined. */
  readonly trials: number;
}

/** For the sample interval: part of the sample it holds. */
const COVERAGE = 0.95;

/**
 * Propagation of distributions, JCGM 101:2008, of the model's first result. Correlated inputs must be normal. The same
 * seed gives the same answer. null when fewer than half of the trials are defined. The list that the model is given is
 * the same one at every trial, with other values: a run asks thousands of times.
 */
export function propagateMonteCarlo(
  model: Model,
  inputs: Inputs,
  options: { readonly trials: number; readonly seed: number },
): MonteCarlo | null {
  const { values, draw } = drawer(inputs, options);
  const drawn = new Float64Array(options.trials);
  let defined = 0;
  for (let trial = 0; trial < options.trials; trial += 1) {
    draw(trial);
    const result = model(values)?.[0];
    if (result === undefined || !Number.isFinite(result)) continue;
    drawn[defined] = result;
    defined += 1;
  }
  if (defined < 2 || defined < options.trials / 2) return null;
  return summaryOf(drawn.subarray(0, defined).sort());
}

/** `sample`: from the smallest to the largest, two or more. */
function summaryOf(sample: Float64Array): MonteCarlo {
  let mean = 0;
  for (const value of sample) mean += value;
  mean /= sample.length;
  let squares = 0;
  for (const value of sample) squares += (value - mean) ** 2;
  const held = Math.min(sample.length - 1, Math.round(COVERAGE * sample.length));
  const span = (start: number): readonly [number, number] => [sample[start] ?? mean, sample[start + held] ?? mean];
  let [narrowest, from] = [Infinity, 0];
  for (let start = 0; start + held < sample.length; start += 1) {
    const width = (sample[start + held] ?? mean) - (sample[start] ?? mean);
    if (width < narrowest) [narrowest, from] = [width, start];
  }
  return {
    mean,
    u: Math.sqrt(squares / (sample.length - 1)),
    symmetric: span(Math.floor((sample.length - held) / 2)),
    shortest: span(from),
    trials: sample.length,
  };
}

/** `draw` puts the inputs of one trial into `values`. */
function drawer(
  inputs: Inputs,
  { trials, seed }: { readonly trials: number; readonly seed: number },
): { readonly values: readonly number[]; readonly draw: (trial: number) => void } {
  const { quantities, correlations = [] } = inputs;
  const values = quantities.map(({ value }) => value);
  const columns = quantities.map(({ u, spread = 'normal' }, input) =>
    u === 0 ? null : { u, draws: drawsOf(spread, input, trials, seed) },
  );
  const moving = columns.flatMap((column, input) =>
    column === null ? [] : [{ ...column, input, value: quantities[input]?.value ?? 0 }],
  );
  const alone = (trial: number): void => {
    for (const { input, value, u, draws } of moving) values[input] = value + u * (draws[trial] ?? 0);
  };
  if (correlations.length === 0) return { values, draw: alone };
  for (const { first, second } of correlations)
    if (quantities[first]?.spread === 'rectangular' || quantities[second]?.spread === 'rectangular')
      throw new Error('correlations: correlated inputs must be normal');
  const root = lowerRoot(inputCovariance(inputs));
  const draw = (trial: number): void => {
    alone(trial);
    for (const [input, { value, spread }] of quantities.entries())
      if (spread !== 'rectangular')
        values[input] =
          value + columns.reduce((sum, column, j) => sum + (root[input]?.[j] ?? 0) * (column?.draws[trial] ?? 0), 0);
  };
  return { values, draw };
}

/** Cholesky's lower triangular root of a covariance matrix; rows without variance stay 0. */
function lowerRoot(matrix: readonly (readonly number[])[]): number[][] {
  const root = matrix.map((row) => row.map(() => 0));
  for (let i = 0; i < matrix.length; i += 1)
    for (let j = 0; j <= i; j += 1) {
      const rowI = root[i] ?? [];
      const rowJ = root[j] ?? [];
      let rest = matrix[i]?.[j] ?? 0;
      for (let k = 0; k < j; k += 1) rest -= (rowI[k] ?? 0) * (rowJ[k] ?? 0);
      if (i === j) {
        if (rest < -1e-12 * (matrix[i]?.[i] ?? 0)) throw new Error('correlations: no such set of correlations exists');
        rowI[j] = Math.sqrt(Math.max(0, rest));
      } else rowI[j] = (rowJ[j] ?? 0) === 0 ? 0 : rest / (rowJ[j] ?? 1);
    }
  return root;
}
