import type { PicturePoint } from '../model/mark.ts';

/** Where an ellipse around the origin, its axes along the coordinates', comes nearest to a point. */
export interface NearestPlace {
  /** On the ellipse: (a cos phase, b sin phase). */
  readonly x: number;
  readonly y: number;
  /** Radians in (-pi, pi], the angle on the circle that the ellipse is a picture of. */
  readonly phase: number;
  /** Pixels from the ellipse to the point: > 0 outside, < 0 inside. */
  readonly distance: number;
  /** Away from the inside, of length 1. */
  readonly outward: PicturePoint;
}

const MOST_STEPS = 200;

/**
 * The place of the ellipse with half axes `a` >= `b` > 0 that is nearest to (x, y), by D. Eberly, "Distance from a Point
 * to an Ellipse, an Ellipsoid, or a Hyperellipsoid" (Geometric Tools, 2013): the one root of a function that falls all
 * the way, by Newton's steps kept inside a bracket that shrinks. Exact to rounding everywhere; on the longer axis near
 * the centre, where two places are as near, it is the one with the larger y.
 */
export function nearestOnEllipse(a: number, b: number, x: number, y: number): NearestPlace {
  const foot = footInQuadrant(a, b, Math.abs(x), Math.abs(y));
  const at = { x: x < 0 ? -foot.x : foot.x, y: y < 0 ? -foot.y : foot.y };
  const steep = { x: at.x / (a * a), y: at.y / (b * b) };
  const size = Math.hypot(steep.x, steep.y);
  const outward = { x: steep.x / size, y: steep.y / size };
  return {
    ...at,
    phase: Math.atan2(at.y / b, at.x / a),
    // Along the normal rather than a length: it keeps its sign and its slopes where the point lies on the ellipse.
    distance: (x - at.x) * outward.x + (y - at.y) * outward.y,
    outward,
  };
}

/** For a >= b > 0 and x, y >= 0; gives x, y >= 0. */
function footInQuadrant(a: number, b: number, x: number, y: number): PicturePoint {
  if (y === 0) {
    // Inside the evolute's cusp the nearest place has left the axis.
    const reach = a * a - b * b;
    if (a * x < reach) {
      const cos = (a * x) / reach;
      return { x: a * cos, y: b * Math.sqrt(Math.max(0, 1 - cos * cos)) };
    }
    return { x: a, y: 0 };
  }
  if (x === 0) return { x: 0, y: b };
  const [u, v] = [(a * x) / (b * b), y / b];
  // The foot is (ratio x / (s + ratio - 1), y / s) for the root s > 0 of (u / (s + ratio - 1))² + (v / s)² = 1.
  const ratio = (a / b) ** 2;
  let low = v;
  let high = Math.hypot(u, v);
  let s = low;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const p = u / (s + (ratio - 1));
    const q = v / s;
    const value = p * p + q * q - 1;
    if (value === 0) break;
    if (value > 0) low = s;
    else high = s;
    const newton = s + value / (2 * ((p * p) / (s + (ratio - 1)) + (q * q) / s));
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (next === s) break;
    s = next;
  }
  return { x: (ratio * x) / (s + (ratio - 1)), y: y / s };
}
