import { describe, it } from 'vitest';
import { propagateFirstOrder } from '../../core/measure/uncertainty/uncertain.ts';
import { within } from '../support/within.ts';

/**
 * JCGM 100:2008 (GUM), annex H.3: corrections b of a thermometer against its reading t, a line fitted by least squares
 * at t0 = 20. Every b is an input with the scatter of the fit as its uncertainty; the covariance of intercept and slope
 * then comes from the propagator alone. Values: gtc.readthedocs.io, GUM_H3, recomputed to more digits.
 */
const T = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const B = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
const T0 = 20;

const sum = (list: readonly number[]) => list.reduce((total, value) => total + value, 0);

/** Intercept at t0, slope, and the line's value at 30. */
function line(b: readonly number[]): readonly number[] {
  const x = T.map((t) => t - T0);
  const meanX = sum(x) / x.length;
  const meanB = sum(b) / b.length;
  const slope =
    sum(x.map((value, k) => (value - meanX) * ((b[k] ?? 0) - meanB))) / sum(x.map((value) => (value - meanX) ** 2));
  const intercept = meanB - slope * meanX;
  return [intercept, slope, intercept + slope * (30 - T0)];
}

describe('GUM H.3, covariance of a fitted line', () => {
  const [intercept = 0, slope = 0] = line(B);
  const squares = sum(T.map((t, k) => ((B[k] ?? 0) - intercept - slope * (t - T0)) ** 2));
  const scatter = Math.sqrt(squares / (B.length - 2));
  const result = propagateFirstOrder(line, {
    quantities: B.map((value, k) => ({ name: `b${k}`, value, u: scatter })),
  });
  const covariance = (i: number, j: number) => result?.covariance[i]?.[j] ?? Number.NaN;

  it('fits the printed line', () => {
    within(intercept, -0.17120379, 1e-8);
    within(slope, 0.00218269774, 1e-11);
    within(squares, 0.000110096583, 1e-12);
    within(scatter, 0.00349756, 1e-8);
  });

  it('has the printed uncertainties and correlation', () => {
    within(Math.sqrt(covariance(0, 0)), 0.0028776, 1e-8);
    within(Math.sqrt(covariance(1, 1)), 0.00066793877, 1e-11);
    within(covariance(0, 1) / Math.sqrt(covariance(0, 0) * covariance(1, 1)), -0.93043, 1e-6);
  });

  it('predicts the correction at 30 with its uncertainty, correlation included', () => {
    within(result?.values[2] ?? 0, -0.14937681, 1e-8);
    within(Math.sqrt(covariance(2, 2)), 0.0041386, 1e-8);
  });
});
