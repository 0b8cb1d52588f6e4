import { describe, it } from 'vitest';
import { toDegrees } from '../../core/geometry/angle.ts';
import { inclineFromHorizontal, inclineFromVertical } from '../../core/geometry/line.ts';
import { apparentFromHorizontal, apparentFromVertical } from '../../core/measure/camera/camera-honesty.ts';
import { within } from '../support/within.ts';

/**
 * Derived: a line in a body plane that is turned by phi out of the picture plane, seen from far away, keeps its height
 * and shows cos(phi) of its width, so tan(apparent) = tan(true) cos(phi) from vertical, tan(true) / cos(phi) from
 * horizontal.
 */
const radians = (degrees: number) => (degrees * Math.PI) / 180;
/** Orthographic picture of the line from the origin to (width, height) in the turned plane. */
const seen = (width: number, height: number, yaw: number) => ({ along: width * Math.cos(radians(yaw)), up: height });
const ORIGIN = { along: 0, up: 0 };

describe('apparent incline of a line under yaw', () => {
  it.each([
    [40, 5, 39.892],
    [40, 10, 39.569],
    [40, 15, 39.025],
    [40, 20, 38.256],
    [30, 5, 29.906],
    [30, 10, 29.622],
    [30, 15, 29.147],
    [30, 20, 28.481],
    [45, 5, 44.891],
    [45, 10, 44.561],
    [45, 15, 44.007],
    [45, 20, 43.219],
  ])('%d degrees from vertical, yaw %d: %d', (incline, yaw, apparent) => {
    const far = seen(Math.sin(radians(incline)), Math.cos(radians(incline)), yaw);
    within(toDegrees(inclineFromVertical(ORIGIN, far) ?? Number.NaN), apparent, 0.0006);
    // And by the formula that tells a coach what the camera's turn does. The table has three decimals.
    within(toDegrees(apparentFromVertical(radians(incline), radians(yaw))), apparent, 0.0006);
  });

  it('60 degrees from horizontal, yaw 10: 60.378', () => {
    const far = seen(Math.cos(radians(60)), Math.sin(radians(60)), 10);
    within(toDegrees(inclineFromHorizontal(ORIGIN, far) ?? Number.NaN), 60.378, 0.0006);
    within(toDegrees(apparentFromHorizontal(radians(60), radians(10))), 60.378, 0.0006);
  });
});
