import { describe, it } from 'vitest';
import { interiorAngle, toDegrees } from '../../core/geometry/angle.ts';
import { inclineFromVertical } from '../../core/geometry/line.ts';
import { toSwing } from '../../core/geometry/point.ts';
import { propagateFirstOrder, propagateMonteCarlo } from '../../core/measure/uncertainty/uncertain.ts';
import { within } from '../support/within.ts';

/**
 * Derived, not published: angle of a two-point line of length L with both ends placed to s pixels, u = sqrt(2) s / L;
 * interior angle with arms a and b, u^2 = s^2 (1/a^2 + 1/b^2 + |n_b/b - n_a/a|^2) with unit normals n. Both were checked
 * by an independent Monte Carlo (200 px: 0.5728 at 90 degrees, 0.6856 at 150).
 */
const stance = { side: 1, tilt: 0 } as const;
const placed = (values: readonly number[], slot: number) =>
  toSwing({ x: values[slot] ?? Number.NaN, y: values[slot + 1] ?? Number.NaN }, stance);
const inputs = (coordinates: readonly number[], u: number) => ({
  quantities: coordinates.map((value, k) => ({ name: `c${k}`, value, u })),
});

describe('angle of a line from two placed points', () => {
  const incline = (values: readonly number[]) => [
    inclineFromVertical(placed(values, 0), placed(values, 2)) ?? Number.NaN,
  ];

  it.each([
    [50, 1.6206],
    [100, 0.8103],
    [200, 0.4051],
    [300, 0.2701],
    [500, 0.1621],
    [800, 0.1013],
  ])('of %d px, 1 px placing: u %d degrees, whichever way it runs', (length, expected) => {
    // Not straight down, where the angle jumps from pi to -pi; readings subtract the short way round (see estimate).
    for (const turn of [0, 0.3, 2, Math.PI, 5]) {
      const coordinates = [400, 300, 400 + length * Math.cos(turn), 300 + length * Math.sin(turn)];
      const result = propagateFirstOrder(incline, inputs(coordinates, 1));
      within(toDegrees(Math.sqrt(result?.covariance[0]?.[0] ?? 0)), expected, 0.00005);
    }
  });

  it('needs 162 px for 1 degree when points are placed to 2 px', () => {
    const result = propagateFirstOrder(incline, inputs([0, 0, 162.05, 0], 2));
    within(toDegrees(Math.sqrt(result?.covariance[0]?.[0] ?? 0)), 1, 0.0005);
  });
});

describe('interior angle from three placed points', () => {
  const interior = (values: readonly number[]) => [
    interiorAngle(placed(values, 0), placed(values, 2), placed(values, 4)) ?? Number.NaN,
  ];
  const knee = (arm: number, degrees: number) => {
    const turn = (degrees * Math.PI) / 180;
    return [500, 500, 500 + arm, 500, 500 + arm * Math.cos(turn), 500 + arm * Math.sin(turn)];
  };

  it.each([
    [200, 90, 0.573],
    [200, 150, 0.6859],
    [200, 170, 0.6999],
    [100, 90, 1.1459],
    [100, 150, 1.3718],
    [100, 170, 1.3999],
  ])('with arms of %d px at %d degrees: u %d degrees', (arm, degrees, expected) => {
    const result = propagateFirstOrder(interior, inputs(knee(arm, degrees), 1));
    within(toDegrees(result?.values[0] ?? 0), degrees, 1e-9);
    within(toDegrees(Math.sqrt(result?.covariance[0]?.[0] ?? 0)), expected, 0.00006);
  });

  it('is the same by Monte Carlo, where the line is long against the placing', () => {
    for (const [degrees, expected] of [
      [90, 0.5728],
      [150, 0.6856],
    ] as const) {
      const result = propagateMonteCarlo(interior, inputs(knee(200, degrees), 1), { trials: 200_000, seed: 4 });
      within(toDegrees(result?.u ?? 0), expected, 0.004);
    }
  });

  it('has slopes that agree with the derivative on paper to a millionth', () => {
    // d(incline)/d(along of the far end) = cos(incline) / L for a line of length L.
    const incline = 0.7;
    const coordinates = [0, 0, 200 * Math.sin(incline), -200 * Math.cos(incline)];
    const line = (values: readonly number[]) => [
      inclineFromVertical(placed(values, 0), placed(values, 2)) ?? Number.NaN,
    ];
    const slope = propagateFirstOrder(line, inputs(coordinates, 3))?.jacobian[0]?.[2] ?? Number.NaN;
    within(slope, Math.cos(incline) / 200, 1e-6 * (Math.cos(incline) / 200));
  });
});
