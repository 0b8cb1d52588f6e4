/**
 * Vectors of the scene, in metres. World axes: x toward the target of a right-handed player, y up, z from the player
 * toward the ball; right-handed (x cross y = z). The ground is y = 0.
 */
export interface Vector {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export const UP: Vector = { x: 0, y: 1, z: 0 };

export function vector(x: number, y: number, z: number): Vector {
  return { x, y, z };
}

export function add(a: Vector, b: Vector): Vector {
  return { x: a.x + b.x, y: a.y + b.y, z: a.z + b.z };
}

export function subtract(a: Vector, b: Vector): Vector {
  return { x: a.x - b.x, y: a.y - b.y, z: a.z - b.z };
}

export function scale(a: Vector, by: number): Vector {
  return { x: a.x * by, y: a.y * by, z: a.z * by };
}

/** `a` moved by `by` times `direction`. */
export function along(a: Vector, direction: Vector, by: number): Vector {
  return { x: a.x + direction.x * by, y: a.y + direction.y * by, z: a.z + direction.z * by };
}

export function dot(a: Vector, b: Vector): number {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

export function cross(a: Vector, b: Vector): Vector {
  return { x: a.y * b.z - a.z * b.y, y: a.z * b.x - a.x * b.z, z: a.x * b.y - a.y * b.x };
}

export function length(a: Vector): number {
  return Math.sqrt(dot(a, a));
}

export function distance(a: Vector, b: Vector): number {
  return length(subtract(a, b));
}

/** `a` at length 1. Throws on a vector without direction. */
export function unit(a: Vector): Vector {
  const size = length(a);
  if (!(size > 1e-12)) throw new Error('unit: the vector has no direction');
  return scale(a, 1 / size);
}

/** The point `share` of the way from `a` (0) to `b` (1). */
export function between(a: Vector, b: Vector, share: number): Vector {
  return along(a, subtract(b, a), share);
}

/** The part of `a` that is square to the unit vector `axis`, at length 1. */
export function squareTo(axis: Vector, a: Vector): Vector {
  return unit(along(a, axis, -dot(a, axis)));
}

/** Mirrors left to right: what a left-handed player is to a right-handed one. */
export function mirror(a: Vector): Vector {
  return { x: -a.x, y: a.y, z: a.z };
}

/** Angle between two vectors, radians, 0 to pi. */
export function angleBetween(a: Vector, b: Vector): number {
  return Math.atan2(length(cross(a, b)), dot(a, b));
}

export function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

export function degrees(angle: number): number {
  return (angle * 180) / Math.PI;
}
