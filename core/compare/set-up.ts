import { toDegrees } from '../geometry/angle.ts';
import { CATALOGUE } from '../measure/catalogue.ts';
import type { MeasuredReading } from '../model/reading.ts';

/**
 * What a camera that was set up anew does to a reading. All assumed, ours: nothing was measured of these cameras. A
 * plumb takes the roll out; ground marks, which would take the yaw out, are not read yet.
 */

/** Standard uncertainty of a hand-set camera's roll where no plumb is marked, degrees. */
export const ROLL_U = 1;
/** Standard uncertainty of a hand-set camera's direction, radians (5 degrees). */
export const YAW_U = (5 * Math.PI) / 180;
/** A body line is taken to be turned this far out of the picture plane, radians (30 degrees). */
export const OUT_OF_PLANE = Math.PI / 6;

/**
 * A line turned by psi out of the picture looks shorter across by cos(psi); a yaw of phi changes that by tan(psi) phi of
 * itself: 5 %. This is the part of a length, ratio or displacement that a yaw makes uncertain.
 */
export const YAW_ON_LENGTH = Math.tan(OUT_OF_PLANE) * YAW_U;

/** The same on an incline t is (sin 2t / 2) tan(psi) phi; at worst, at 45 degrees, half of the above: 1.4 degrees. */
export const YAW_ON_ANGLE = toDegrees(YAW_ON_LENGTH / 2);

/** Standard uncertainty, in the reading's unit, that one set-up of the camera adds when two days are compared. */
export function setUpPart(reading: MeasuredReading): number {
  switch (reading.unit) {
    case 's':
    case 's on screen':
      return 0;
    case 'deg':
      return Math.hypot(YAW_ON_ANGLE, reading.notes.includes('no-plumb') ? ROLL_U : 0);
    case 'ratio':
      return 'spans' in CATALOGUE[reading.id] ? 0 : YAW_ON_LENGTH * Math.abs(reading.value);
    default:
      return YAW_ON_LENGTH * Math.abs(reading.value);
  }
}
