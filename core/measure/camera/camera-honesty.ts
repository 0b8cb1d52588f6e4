/**
 * How a line looks that lies in a plane turned by `yaw` out of the picture: it keeps its height and shows cos(yaw) of its
 * width, seen from far away, so tan(apparent) = tan(true) cos(yaw) from the vertical. Derived. Radians; an incline beyond
 * a right angle stays beyond it. Throws where the camera looks along the plane or from behind it (|yaw| >= pi/2).
 */
export function apparentFromVertical(incline: number, yaw: number): number {
  checkYaw(yaw);
  return Math.atan2(Math.sin(incline) * Math.cos(yaw), Math.cos(incline));
}

/** The same for an incline from the horizontal: tan(apparent) = tan(true) / cos(yaw). */
export function apparentFromHorizontal(incline: number, yaw: number): number {
  checkYaw(yaw);
  return Math.atan2(Math.sin(incline), Math.cos(incline) * Math.cos(yaw));
}

function checkYaw(yaw: number): void {
  if (!(Math.abs(yaw) < Math.PI / 2)) throw new Error('camera honesty: the yaw must be within a right angle');
}
