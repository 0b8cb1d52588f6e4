import { toDegrees } from '../geometry/angle.ts';
import type { CameraNumber } from '../measure/camera/camera-of-clip.ts';
import { CATALOGUE } from '../measure/catalogue/catalogue.ts';
import type { MeasuredReading } from '../model/reading.ts';

/**
 * What a camera that was set up anew does to a reading. All assumed, ours, as long as nothing was measured of the cameras:
 * a plumb takes the roll out, ground marks on both days tell the yaw.
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

/** How far each camera looked beside its line, radians, where ground marks tell it of both. */
export interface KnownYaws {
  readonly then: CameraNumber;
  readonly now: CameraNumber;
}

/**
 * Standard uncertainty of a difference, in the reading's unit, that setting up the camera anew adds. Where ground marks
 * tell both directions, it is by their difference that yaw makes the two unlike, not by what a hand-set camera may be off
 * by. Readings on the ground are true whichever way the camera looks: they have no such part, and neither have times.
 */
export function setUpPart(then: MeasuredReading, now: MeasuredReading, yaws: KnownYaws | null): number {
  const turned =
    yaws === null ? Math.SQRT2 * YAW_U : Math.hypot(yaws.now.value - yaws.then.value, yaws.then.u, yaws.now.u);
  const entry = CATALOGUE[now.id];
  if ('spans' in entry || ('ground' in entry && entry.ground)) return 0;
  const onLength = Math.tan(OUT_OF_PLANE) * turned;
  if (now.unit !== 'deg') return onLength * (Math.hypot(then.value, now.value) / Math.SQRT2);
  const rolled = [then, now].filter(({ notes }) => notes.includes('no-plumb')).length;
  return Math.hypot(toDegrees(onLength / 2), ROLL_U * Math.sqrt(rolled));
}
