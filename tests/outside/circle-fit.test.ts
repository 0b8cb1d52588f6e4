import { expect, test } from 'vitest';
import { fitFreeArc } from '../../core/geometry/fit-arc.ts';
import { fitCircle } from '../../core/geometry/fit-circle.ts';
import { within } from '../support/within.ts';

/**
 * W. Gander, G. H. Golub, R. Strebel, "Least-squares fitting of circles and ellipses", BIT 34 (1994) 558-578: six points,
 * whose best circle by distance has the centre (4.7398, 2.9835) and the radius 4.7142.
 */
const POINTS = [
  [1, 7],
  [2, 6],
  [5, 8],
  [7, 7],
  [9, 5],
  [3, 7],
] as const;

test('the six points of Gander, Golub and Strebel give their geometric circle, to the printed digits', () => {
  const fit = fitCircle(POINTS.map(([x, y]) => ({ x, y })));
  expect(fit).not.toBeNull();
  within(fit?.centre.x ?? 0, 4.7398, 5e-5);
  within(fit?.centre.y ?? 0, 2.9835, 5e-5);
  within(fit?.radius ?? 0, 4.7142, 5e-5);
});

test('the upright arc through them is the same circle, with the sum of squares 1.2276 (from memory, recomputed)', () => {
  // Without the refusals of `fitArc`: these points lie on the upper side.
  const fit = fitFreeArc(
    POINTS.map(([along, up]) => ({ along, up })),
    Math.PI / 2,
  );
  within(fit?.centre.along ?? Number.NaN, 4.7398, 5e-5);
  within(fit?.centre.up ?? Number.NaN, 2.9835, 5e-5);
  within(fit?.radius ?? Number.NaN, 4.7142, 5e-5);
  within(6 * (fit?.residual ?? Number.NaN) ** 2, 1.2276, 5e-5);
});
