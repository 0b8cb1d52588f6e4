import { expect, test } from 'vitest';
import { BALL_MM } from '../../core/measure/camera/calibration.ts';
import { seemsLarger } from '../../core/measure/camera/depth.ts';
import { within } from '../support/within.ts';

/** A point nearer than the calibrated plane seems larger by D / (D - d) - 1: derived from similar triangles. In per cent. */
test.each([
  [4, 0.2, 5.263],
  [5, 0.2, 4.167],
  [5, 0.3, 6.383],
  [6, 0.3, 5.263],
  [8, 0.3, 3.896],
  [10, 0.3, 3.093],
  [5, -0.3, -5.66],
])('camera at %d m, %d m nearer: %d %%', (distance, depth, percent) => {
  // Printed to three decimals.
  within(100 * seemsLarger(distance, depth), percent, 0.0005);
});

/** Equipment Rules (The R&A and USGA), the ball: not less than 1.680 inches, printed as 42.67 mm. */
test('a ball is at least 1.680 inches across', () => {
  within(BALL_MM, 1.68 * 25.4, 0.005);
  expect(BALL_MM).toBeLessThanOrEqual(1.68 * 25.4);
});
