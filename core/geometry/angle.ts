import { offset } from './point.ts';
import type { SwingPoint } from './point.ts';

/**
 * Interior angle at `vertex` between the arms to `a` and `b`. Radians in [0, pi], pi = straight; exact on collinear
 * points, since it comes from atan2 of cross and dot product and never from acos. null when an arm has no length.
 */
export function interiorAngle(vertex: SwingPoint, a: SwingPoint, b: SwingPoint): number | null {
  const first = offset(vertex, a);
  const second = offset(vertex, b);
  if (first.along === 0 && first.up === 0) return null;
  if (second.along === 0 && second.up === 0) return null;
  const cross = first.along * second.up - first.up * second.along;
  const dot = first.along * second.along + first.up * second.up;
  return Math.atan2(Math.abs(cross), dot);
}

/** The same angle brought into (-period / 2, period / 2]; the period is 2 pi, or pi for lines without direction. */
export function wrapAngle(angle: number, period: number = 2 * Math.PI): number {
  return angle - period * Math.ceil((angle - period / 2) / period) + 0;
}

export function toDegrees(radians: number): number {
  return (radians * 180) / Math.PI;
}
