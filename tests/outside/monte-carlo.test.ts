import { describe, expect, it } from 'vitest';
import { propagateFirstOrder, propagateMonteCarlo } from '../../core/measure/uncertainty/uncertain.ts';
import type { Inputs, Quantity } from '../../core/measure/uncertainty/uncertain.ts';
import { within } from '../support/within.ts';

/** JCGM 101:2008, clause 9. Exact values beside the printed ones; tolerances are four standard errors of the sample. */
const TRIALS = 400_000;
const SEED = 101;

const total = (values: readonly number[]) => [values.reduce((sum, value) => sum + value, 0)];
const four = (spread: 'normal' | 'rectangular'): Inputs => ({
  quantities: [1, 2, 3, 4].map((k): Quantity => ({ name: `X${k}`, value: 0, u: 1, spread })),
});

function sampled(model: (values: readonly number[]) => readonly number[], inputs: Inputs) {
  const result = propagateMonteCarlo(model, inputs, { trials: TRIALS, seed: SEED });
  if (result === null) throw new Error('undefined');
  return result;
}

describe('JCGM 101, 9.2: sums of four inputs', () => {
  it('9.2.2, normal: u 2.00, 95 % interval +-3.92', () => {
    const { mean, u, symmetric, shortest } = sampled(total, four('normal'));
    within(mean, 0, 4 * (2 / Math.sqrt(TRIALS)));
    within(u, 2, 4 * (2 / Math.sqrt(2 * TRIALS)));
    // Standard error of a 2.5 % quantile: sqrt(p (1 - p) / n) / density there = 0.0085.
    within(symmetric[0], -3.91993, 0.034);
    within(symmetric[1], 3.91993, 0.034);
    within(shortest[1] - shortest[0], 2 * 3.91993, 0.07);
  });

  it('9.2.3, rectangular: u 2.00, but 95 % interval +-3.88 where the linear method says +-3.92', () => {
    const { u, symmetric } = sampled(total, four('rectangular'));
    within(u, 2, 4 * (2 / Math.sqrt(2 * TRIALS)));
    within(symmetric[0], -3.8794067, 0.034);
    within(symmetric[1], 3.8794067, 0.034);
    const first = propagateFirstOrder(total, four('rectangular'));
    within(1.96 * Math.sqrt(first?.covariance[0]?.[0] ?? 0), 3.92, 1e-6);
  });

  it('9.2.4, one rectangular input ten times wider: u 10.1, Monte Carlo +-17.0, linear +-19.9', () => {
    const { quantities } = four('rectangular');
    const wide = { quantities: quantities.map((quantity, k) => (k === 3 ? { ...quantity, u: 10 } : quantity)) };
    const { u, symmetric } = sampled(total, wide);
    within(u, Math.sqrt(103), 0.03);
    within(symmetric[1], 17.0, 0.1);
    within(symmetric[0], -17.0, 0.1);
    const first = propagateFirstOrder(total, wide);
    within(1.96 * Math.sqrt(first?.covariance[0]?.[0] ?? 0), 19.8918, 0.0005);
  });
});

describe('JCGM 101, 9.3: a mass in air', () => {
  // Milligrams; densities in kg/m3. A rectangular input over [a, b] has u = (b - a) / sqrt(12).
  const even = (name: string, a: number, b: number): Quantity => ({
    ...{ name, value: (a + b) / 2, u: (b - a) / Math.sqrt(12), spread: 'rectangular' },
  });
  const inputs: Inputs = {
    quantities: [
      { name: 'reference', value: 100_000, u: 0.05 },
      { name: 'small weight', value: 1.234, u: 0.02 },
      even('air', 1.1, 1.3),
      even('weight', 7000, 9000),
      even('reference weight', 7950, 8050),
    ],
  };
  const difference = ([reference = 0, small = 0, air = 0, weight = 1, other = 1]: readonly number[]) => [
    (reference + small) * (1 + (air - 1.2) * (1 / weight - 1 / other)) - 100_000,
  ];

  it('printed: y 1.2341 mg, u 0.0754 mg, [1.0834, 1.3825] mg, where first order makes u 0.0539 mg', () => {
    const { mean, u, shortest } = sampled(difference, inputs);
    within(mean, 1.2341, 4 * (0.0754 / Math.sqrt(TRIALS)) + 0.00005);
    within(u, 0.0754, 0.0004);
    // Recomputed with other numbers: [1.0848, 1.3841]; a shortest interval wanders by about 1 % of its length.
    within(shortest[0], 1.0834, 0.004);
    within(shortest[1], 1.3825, 0.004);
    const first = propagateFirstOrder(difference, inputs);
    within(Math.sqrt(first?.covariance[0]?.[0] ?? 0), 0.053852, 0.00005);
  });
});

describe('JCGM 101, 9.4: Y = X1^2 + X2^2 near zero, u = 0.005', () => {
  const squares = ([a = 0, b = 0]: readonly number[]) => [a * a + b * b];
  const inputs = (x1: number): Inputs => ({
    quantities: [
      { name: 'X1', value: x1, u: 0.005 },
      { name: 'X2', value: 0, u: 0.005 },
    ],
  });

  it.each([
    { x1: 0, mean: 50, u: 50, low: 0, high: 150 },
    { x1: 0.01, mean: 150, u: 111.8034, low: 0, high: 367 },
    { x1: 0.05, mean: 2550, u: 502.4938, low: 1590, high: 3543 },
  ])('x1 = $x1: mean $mean e-6, u $u e-6, shortest 95 % interval [$low, $high] e-6', ({ x1, mean, u, low, high }) => {
    const result = sampled(squares, inputs(x1));
    within(result.mean * 1e6, mean, 4 * (u / Math.sqrt(TRIALS)));
    within(result.u * 1e6, u, 0.01 * u);
    // The printed intervals are themselves from one sample; a shortest interval wanders by about 1 % of its length.
    within(result.shortest[0] * 1e6, low, 0.015 * (high - low) + 0.5);
    within(result.shortest[1] * 1e6, high, 0.015 * (high - low));
  });

  it('first order gives no uncertainty at all where it has no slope, which is why it is not used there', () => {
    const result = propagateFirstOrder(squares, inputs(0));
    expect(Math.sqrt(result?.covariance[0]?.[0] ?? 1) * 1e6).toBeLessThan(0.01);
  });

  it('first order and Monte Carlo agree far from zero', () => {
    const first = propagateFirstOrder(squares, inputs(0.05));
    const sample = sampled(squares, inputs(0.05));
    // Exact first order: 2 x1 u = 500e-6; the exact u is 502.4938e-6.
    within(Math.sqrt(first?.covariance[0]?.[0] ?? 0) * 1e6, 500, 1e-6);
    within(sample.u * 1e6, 502.4938, 3);
  });
});
