import { add, along, distance, dot, scale, subtract, unit } from './vector.ts';
import type { Vector } from './vector.ts';

/**
 * The middle joint of a limb of two bones from `root` to `end` (elbow, knee): both bones keep their length, the joint
 * lies in the plane of the limb and `toward` (a direction, any length), on that side. Law of cosines.
 * Throws when the end is out of reach or `toward` lies along the limb: the scenario asks the impossible.
 */
export function middleJoint(root: Vector, end: Vector, upper: number, lower: number, toward: Vector): Vector {
  const reach = distance(root, end);
  if (reach > upper + lower || reach < Math.abs(upper - lower))
    throw new Error(`middleJoint: ${reach.toFixed(4)} m is out of reach of ${(upper + lower).toFixed(4)} m`);
  const axis = unit(subtract(end, root));
  const share = (upper * upper + reach * reach - lower * lower) / (2 * reach);
  const side = Math.sqrt(Math.max(0, upper * upper - share * share));
  const square = unit(add(toward, scale(axis, -dot(toward, axis))));
  return along(along(root, axis, share), square, side);
}

/** Distance between the ends of a limb whose middle joint is open by `angle` radians (pi = straight). */
export function reachAtAngle(upper: number, lower: number, angle: number): number {
  return Math.sqrt(upper * upper + lower * lower - 2 * upper * lower * Math.cos(angle));
}

/** How straight an arm gets before the shoulder blade begins to give, as a share of its full length. */
const STRAIGHT = 0.985;
/** Metres over which that sets in, so that it sets in without a jerk. */
const SOFT = 0.004;

/**
 * Where the arm really hangs when its hand is at `hand`: as far as the hand is out of comfortable reach, the shoulder
 * blade draws the arm's root toward it. The result is always within `full` of the hand.
 */
export function drawnRoot(root: Vector, hand: Vector, full: number): Vector {
  const reach = distance(root, hand);
  const over = reach - STRAIGHT * full;
  return along(root, unit(subtract(hand, root)), (over + Math.sqrt(over * over + SOFT * SOFT)) / 2);
}
