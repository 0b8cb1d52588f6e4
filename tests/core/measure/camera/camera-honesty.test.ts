import { describe, expect, it } from 'vitest';
import { apparentFromHorizontal, apparentFromVertical } from '../../../../core/measure/camera/camera-honesty.ts';
import { within } from '../../../support/within.ts';

const DEGREE = Math.PI / 180;
/** Rounding of a sine and an arc tangent. */
const EXACT = 1e-12;

describe('how a line looks in a plane that is turned out of the picture', () => {
  it('is what it is where the camera looks straight at it', () => {
    for (let degrees = -180; degrees <= 180; degrees += 15) {
      within(Math.sin(apparentFromVertical(degrees * DEGREE, 0)), Math.sin(degrees * DEGREE), EXACT);
      within(Math.cos(apparentFromHorizontal(degrees * DEGREE, 0)), Math.cos(degrees * DEGREE), EXACT);
    }
  });

  it('leans less from the vertical and rises more from the horizontal, the same to either hand', () => {
    for (const yaw of [5, 10, 30, 60]) {
      const [right, left] = [yaw * DEGREE, -yaw * DEGREE];
      expect(apparentFromVertical(0.7, right)).toBeLessThan(0.7);
      expect(apparentFromHorizontal(0.7, right)).toBeGreaterThan(0.7);
      within(apparentFromVertical(0.7, left), apparentFromVertical(0.7, right), EXACT);
      within(apparentFromHorizontal(0.7, left), apparentFromHorizontal(0.7, right), EXACT);
    }
  });

  it('is the same line, told from either axis: together they make a right angle', () => {
    for (const incline of [0.1, 0.7, 1.4])
      within(
        apparentFromVertical(incline, 0.2) + apparentFromHorizontal(Math.PI / 2 - incline, 0.2),
        Math.PI / 2,
        EXACT,
      );
  });

  it('stays level or upright where it is', () => {
    within(apparentFromVertical(0, 0.5), 0, EXACT);
    within(apparentFromVertical(Math.PI / 2, 0.5), Math.PI / 2, EXACT);
    within(apparentFromHorizontal(0, 0.5), 0, EXACT);
  });

  it('hand-worked: 45 degrees turned by 60 shows half its width, tan = 1/2 from the vertical and 2 from the horizontal', () => {
    within(apparentFromVertical(45 * DEGREE, 60 * DEGREE), Math.atan(0.5), EXACT);
    within(apparentFromHorizontal(45 * DEGREE, 60 * DEGREE), Math.atan(2), EXACT);
  });

  it('throws where the plane is seen from its edge, from behind, or at no angle at all', () => {
    for (const yaw of [Math.PI / 2, -2, Number.NaN]) {
      expect(() => apparentFromVertical(0.5, yaw)).toThrow(/yaw/);
      expect(() => apparentFromHorizontal(0.5, yaw)).toThrow(/yaw/);
    }
  });
});
