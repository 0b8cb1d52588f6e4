import type { Plane } from '../../model/mark.ts';
import type { View } from '../../model/words.ts';

/** How far the camera is taken to stand from the player where ground marks do not tell it, metres. Assumed, ours. */
export const ASSUMED_DISTANCE = 5;

/** What is read lies within half a body's depth of its plane, metres. Assumed, ours. */
export const BODY_DEPTH = 0.3;

/** How much nearer to the camera the ball is than the middle of the player, metres. Assumed, ours. */
export const BALL_NEARER: Readonly<Record<View, number>> = { 'face-on': 0.7, 'down-the-line': 0 };

/**
 * By how much more a thing seems to measure that lies `depth` nearer than the plane of the known length at `distance`:
 * D / (D - d) - 1, as a part of 1. Farther off it seems less, by not quite as much. Metres, depth < distance.
 */
export function seemsLarger(distance: number, depth: number): number {
  if (!(depth < distance)) throw new Error('seemsLarger: depth must be smaller than the distance of the camera');
  return distance / (distance - depth) - 1;
}

/** Metres between two planes in a view, >= 0. */
export function apart(view: View, one: Plane, other: Plane): number {
  return one === other ? 0 : BALL_NEARER[view];
}

/**
 * Relative standard uncertainty of a length in the known length's scale. The thing lies anywhere up to the planes' gap and half
 * a body's depth off the known length's plane. D / (D - d) - 1 is the most it can be wrong, and u is that over sqrt(3).
 */
export function depthU(gap: number, distance: number = ASSUMED_DISTANCE): number {
  return seemsLarger(distance, Math.min(gap + BODY_DEPTH, distance / 2)) / Math.sqrt(3);
}
