import { describe, it } from 'vitest';
import { fitLine } from '../../core/geometry/fit-line.ts';
import { leastSquares } from '../../core/geometry/least-squares.ts';
import { entry } from '../../core/geometry/linear.ts';
import { within } from '../support/within.ts';

/** NIST Statistical Reference Datasets, linear regression, "Norris": 36 pairs of an ozone monitor's calibration. */
// oxfmt-ignore
const Y = [
  0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
  557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
];
// oxfmt-ignore
const X = [
  0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6,
  556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
];

describe("NIST's Norris", () => {
  it('comes out of our least squares with the certified coefficients and standard deviations', () => {
    const fit = leastSquares(([b0 = 0, b1 = 0]) => X.map((x, i) => (Y[i] ?? Number.NaN) - b0 - b1 * x), [0, 1], [1, 1]);
    // The normal equations of x up to 1,000 cost six of sixteen digits; differences for slopes leave nine.
    within(fit?.parameters[0] ?? Number.NaN, -0.262323073774029, 1e-9);
    within(fit?.parameters[1] ?? Number.NaN, 1.00211681802045, 1e-11);
    const residual = Math.sqrt((fit?.sum ?? Number.NaN) / (X.length - 2));
    within(residual, 0.884796396144373, 1e-9);
    const deviation = (i: number) => residual * Math.sqrt(entry(fit?.covariance ?? [], i, i));
    within(deviation(0), 0.232818234301152, 1e-8);
    within(deviation(1), 0.429796848199937e-3, 1e-11);
  });

  it('has the orthogonal line that was derived from the same pairs: slope 1.0021199583, RMS 0.6073745', () => {
    const fit = fitLine(X.map((x, i) => ({ x, y: Y[i] ?? Number.NaN })));
    // Each to half of its last digit.
    within(fit?.middle.x ?? Number.NaN, 419.177778, 5e-7);
    within(fit?.middle.y ?? Number.NaN, 419.802778, 5e-7);
    within(Math.tan(fit?.direction ?? Number.NaN), 1.0021199583, 5e-11);
    within(fit?.residual ?? Number.NaN, 0.6073745, 5e-8);
  });
});
