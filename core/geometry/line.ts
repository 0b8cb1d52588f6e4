import { offset } from './point.ts';
import type { SwingPoint } from './point.ts';

/**
 * How far the direction `from` -> `to` leans from straight up. Radians in (-pi, pi]: 0 = straight up, + leans toward
 * +along (target or ball). null when the points are the same.
 */
export function inclineFromVertical(from: SwingPoint, to: SwingPoint): number | null {
  const { along, up } = offset(from, to);
  return along === 0 && up === 0 ? null : Math.atan2(along, up);
}

/**
 * How far the direction `from` -> `to` rises from the horizontal. Radians in (-pi, pi]: 0 = toward +along, + rises.
 * null when the points are the same.
 */
export function inclineFromHorizontal(from: SwingPoint, to: SwingPoint): number | null {
  const { along, up } = offset(from, to);
  return along === 0 && up === 0 ? null : Math.atan2(up, along);
}

/**
 * How far the line through two points tilts from the horizontal, whichever way it runs. Radians in [-pi/2, pi/2]:
 * + when `high` is higher than `low`. null when the points are the same.
 */
export function tiltFromHorizontal(low: SwingPoint, high: SwingPoint): number | null {
  const { along, up } = offset(low, high);
  return along === 0 && up === 0 ? null : Math.atan2(up, Math.abs(along));
}

/**
 * Signed distance in pixels of `point` from the endless line `from` -> `to`: + on its left when looking from `from` to
 * `to` with +along to the right and up upward. null when the line has no direction.
 */
export function distanceToLine(point: SwingPoint, from: SwingPoint, to: SwingPoint): number | null {
  const line = offset(from, to);
  const arm = offset(from, point);
  const length = Math.hypot(line.along, line.up);
  return length === 0 ? null : (line.along * arm.up - line.up * arm.along) / length;
}
