import { describe, expect, it } from 'vitest';
import { propagateFirstOrder, propagateMonteCarlo } from '../../core/measure/uncertainty/uncertain.ts';
import type { FirstOrder, Inputs } from '../../core/measure/uncertainty/uncertain.ts';
import { within } from '../support/within.ts';

/**
 * JCGM 100:2008 (GUM), annex H.2: resistance R, reactance X and impedance Z from voltage V, current I and phase phi, all
 * three measured together in five sets and so correlated. Data: Table H.2. Values recomputed to more digits agree with
 * the printed ones.
 */
const V = [5.007, 4.994, 5.005, 4.99, 4.999];
const I = [19.663, 19.639, 19.64, 19.685, 19.678].map((milliamperes) => milliamperes / 1000);
const PHI = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];

const impedance = ([v = 0, i = 0, phi = 0]: readonly number[]) => [
  (v / i) * Math.cos(phi),
  (v / i) * Math.sin(phi),
  v / i,
];

const mean = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;
/** Covariance of two means, GUM 5.2.3. */
const covarianceOfMeans = (a: readonly number[], b: readonly number[]) => {
  const [meanA, meanB] = [mean(a), mean(b)];
  const products = a.map((value, k) => (value - meanA) * ((b[k] ?? Number.NaN) - meanB));
  return products.reduce((sum, product) => sum + product, 0) / (a.length * (a.length - 1));
};

const at = (result: FirstOrder, i: number, j: number) => result.covariance[i]?.[j] ?? Number.NaN;
const u = (result: FirstOrder, i: number) => Math.sqrt(at(result, i, i));
const r = (result: FirstOrder, i: number, j: number) => at(result, i, j) / (u(result, i) * u(result, j));

function fullInputs(): Inputs {
  const lists = [V, I, PHI];
  const names = ['V', 'I', 'phi'];
  const quantities = lists.map((list, k) => ({
    name: names[k] ?? '',
    value: mean(list),
    u: Math.sqrt(covarianceOfMeans(list, list)),
  }));
  const pairs = [
    [0, 1],
    [0, 2],
    [1, 2],
  ] as const;
  const correlations = pairs.map(([first, second]) => {
    const [a, b] = [lists[first] ?? [], lists[second] ?? []];
    const product = (quantities[first]?.u ?? 0) * (quantities[second]?.u ?? 0);
    return { first, second, r: covarianceOfMeans(a, b) / product };
  });
  return { quantities, correlations };
}

function propagate(inputs: Inputs): FirstOrder {
  const result = propagateFirstOrder(impedance, inputs);
  if (result === null) throw new Error('undefined');
  return result;
}

describe('GUM H.2, three results from three correlated inputs', () => {
  it('has the printed means, uncertainties and correlations of the inputs', () => {
    const { quantities, correlations = [] } = fullInputs();
    within(quantities[0]?.value ?? 0, 4.999, 1e-9);
    within(quantities[1]?.value ?? 0, 0.019661, 1e-9);
    within(quantities[2]?.value ?? 0, 1.04446, 1e-9);
    within(quantities[0]?.u ?? 0, 0.0032, 0.00005);
    within(quantities[1]?.u ?? 0, 0.0095e-3, 0.00005e-3);
    within(quantities[2]?.u ?? 0, 0.00075, 0.000005);
    within(correlations[0]?.r ?? 0, -0.355311, 1e-6);
    within(correlations[1]?.r ?? 0, 0.857624, 1e-6);
    within(correlations[2]?.r ?? 0, -0.645111, 1e-6);
  });

  it('from the full data gives Table H.3 and H.4', () => {
    const result = propagate(fullInputs());
    const [R = 0, X = 0, Z = 0] = result.values;
    within(R, 127.73217, 5e-6);
    within(X, 219.84651, 5e-6);
    within(Z, 254.2597, 5e-6);
    within(u(result, 0), 0.071071, 1e-6);
    within(u(result, 1), 0.295582, 1e-6);
    within(u(result, 2), 0.236336, 1e-6);
    within(r(result, 0, 1), -0.58843, 1e-6);
    within(r(result, 0, 2), -0.485259, 1e-6);
    within(r(result, 1, 2), 0.992512, 1e-6);
  });

  it('from the printed, rounded inputs gives what a public library prints for them', () => {
    const result = propagate({
      quantities: [
        { name: 'V', value: 4.999, u: 0.0032 },
        { name: 'I', value: 19.661e-3, u: 0.0095e-3 },
        { name: 'phi', value: 1.04446, u: 0.00075 },
      ],
      correlations: [
        { first: 0, second: 1, r: -0.36 },
        { first: 0, second: 2, r: 0.86 },
        { first: 1, second: 2, r: -0.65 },
      ],
    });
    // 127.732(70), 219.85(30), 254.26(24); -0.59, -0.49, +0.99 (gtc.readthedocs.io, GUM_H2): half a last digit.
    within(result.values[0] ?? 0, 127.732, 0.0005);
    within(result.values[1] ?? 0, 219.85, 0.005);
    within(result.values[2] ?? 0, 254.26, 0.005);
    within(u(result, 0), 0.06998, 0.00001);
    within(u(result, 1), 0.3, 0.005);
    within(u(result, 2), 0.24, 0.005);
    within(r(result, 0, 1), -0.59, 0.005);
    within(r(result, 0, 2), -0.49, 0.005);
    within(r(result, 1, 2), 0.99, 0.005);
  });

  it('by the second route, each observation evaluated by itself, agrees to the digits of the GUM', () => {
    const sets = V.map((v, k) => impedance([v, I[k] ?? 0, PHI[k] ?? 0]));
    const column = (k: number) => sets.map((set) => set[k] ?? Number.NaN);
    within(mean(column(0)), 127.73163, 5e-6);
    within(mean(column(1)), 219.84689, 5e-6);
    within(mean(column(2)), 254.26005, 5e-6);
    within(Math.sqrt(covarianceOfMeans(column(0), column(0))), 0.071274, 1e-6);
    within(Math.sqrt(covarianceOfMeans(column(1), column(1))), 0.295489, 1e-6);
    within(Math.sqrt(covarianceOfMeans(column(2), column(2))), 0.236248, 1e-6);
    // GUM Table H.3/H.4: the propagator and this route both print as 0.071 and 0.236 / -0.588, -0.485, 0.993.
    const result = propagate(fullInputs());
    within(u(result, 0), 0.071, 0.0005);
    within(u(result, 1), 0.295, 0.001);
    within(u(result, 2), 0.236, 0.0005);
    within(r(result, 0, 1), -0.588, 0.0005);
    within(r(result, 0, 2), -0.485, 0.0005);
    within(r(result, 1, 2), 0.993, 0.0006);
  });

  it('by Monte Carlo with the same correlated inputs gives the same uncertainty', () => {
    const result = propagateMonteCarlo(impedance, fullInputs(), { trials: 200_000, seed: 1 });
    // Standard error of u from n trials is u / sqrt(2 n) = 0.00011; four of them.
    within(result?.u ?? 0, 0.071071, 0.0005);
    within(result?.mean ?? 0, 127.73217, 0.001);
  });

  it('refuses correlations that cannot be', () => {
    const { quantities } = fullInputs();
    const impossible = { quantities, correlations: [{ first: 0, second: 1, r: 1.2 }] };
    expect(() => propagateFirstOrder(impedance, impossible)).toThrow(/\[-1, 1\]/);
    const misplaced = { quantities, correlations: [{ first: 0, second: 7, r: 0.2 }] };
    expect(() => propagateFirstOrder(impedance, misplaced)).toThrow(/two different inputs/);
    const contradictory = [
      { first: 0, second: 1, r: 0.9 },
      { first: 0, second: 2, r: 0.9 },
      { first: 1, second: 2, r: -0.9 },
    ];
    expect(() =>
      propagateMonteCarlo(impedance, { quantities, correlations: contradictory }, { trials: 10, seed: 1 }),
    ).toThrow(/no such set/);
  });
});
