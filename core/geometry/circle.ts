import type { PicturePoint } from '../model/mark.ts';

export interface Circle {
  readonly centre: PicturePoint;
  /** Pixels, >= 0. */
  readonly radius: number;
}

/** The circle through three points, or null when they lie on one line or on one another. */
export function circleThrough(a: PicturePoint, b: PicturePoint, c: PicturePoint): Circle | null {
  const bx = b.x - a.x;
  const by = b.y - a.y;
  const cx = c.x - a.x;
  const cy = c.y - a.y;
  const cross = 2 * (bx * cy - by * cx);
  const bSquared = bx * bx + by * by;
  const cSquared = cx * cx + cy * cy;
  // Rounding leaves a cross product of about 1e-16 of the squared size on points that are collinear on paper.
  if (Math.abs(cross) <= 1e-12 * Math.max(bSquared, cSquared)) return null;
  const x = (cy * bSquared - by * cSquared) / cross;
  const y = (bx * cSquared - cx * bSquared) / cross;
  return { centre: { x: a.x + x, y: a.y + y }, radius: Math.hypot(x, y) };
}
