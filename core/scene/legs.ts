import { reachAtAngle, middleJoint } from './limb.ts';
import type { Scenario } from './scenario.ts';
import { add, along, scale, UP, vector } from './vector.ts';
import type { Vector } from './vector.ts';

/** A rigid shoe: heel and toe on the sole, the ankle above it. */
export interface Foot {
  readonly heel: Vector;
  readonly toe: Vector;
  readonly ankle: Vector;
  /** Along the sole from heel to toe, and square to the sole. */
  readonly forward: Vector;
  readonly sole: Vector;
}

/**
 * A foot whose toe stays where it stood at address with `standingFlare`, now turned to `flare` and its heel raised by
 * `lift` (radians, about the toe). `side` is +1 for the lead foot. Flare is positive when turned out from square.
 */
export function footAt(scenario: Scenario, side: 1 | -1, standingFlare: number, flare: number, lift: number): Foot {
  const { shoe, ankleHeight, ankleAhead } = scenario.body;
  const flat = (turn: number): Vector => vector(side * Math.sin(turn), 0, Math.cos(turn));
  const standing = vector((side * scenario.stanceWidth) / 2, 0, 0);
  const toe = along(standing, flat(standingFlare), shoe - ankleAhead);
  const forward = add(scale(flat(flare), Math.cos(lift)), scale(UP, -Math.sin(lift)));
  const sole = add(scale(UP, Math.cos(lift)), scale(flat(flare), Math.sin(lift)));
  const heel = along(toe, forward, -shoe);
  return { heel, toe, forward, sole, ankle: along(along(heel, forward, ankleAhead), sole, ankleHeight) };
}

export interface Hips {
  readonly middle: Vector;
  readonly lead: Vector;
  readonly trail: Vector;
  /** Level direction in which the front of the hips points. */
  readonly forward: Vector;
  /** From the trail to the lead hip. */
  readonly across: Vector;
}

/**
 * Sets the hips on the legs: place and turn on the ground plan are given, height and side tilt follow from how far each
 * knee is open. Radians. Throws when a leg is too short for the plan.
 */
export function hipsOnLegs(
  scenario: Scenario,
  plan: { readonly x: number; readonly z: number; readonly turn: number },
  ankles: { readonly lead: Vector; readonly trail: Vector },
  knees: { readonly lead: number; readonly trail: number },
): Hips {
  const { thigh, shank, hipWidth } = scenario.body;
  const level = vector(Math.cos(plan.turn), 0, Math.sin(plan.turn));
  const half = hipWidth / 2;
  const height = (side: 1 | -1, tilt: number): number => {
    const ankle = side === 1 ? ankles.lead : ankles.trail;
    const reach = reachAtAngle(thigh, shank, side === 1 ? knees.lead : knees.trail);
    const dx = plan.x + side * half * Math.cos(tilt) * level.x - ankle.x;
    const dz = plan.z + side * half * Math.cos(tilt) * level.z - ankle.z;
    const rest = reach * reach - dx * dx - dz * dz;
    if (!(rest > 0)) throw new Error('hipsOnLegs: a leg is too short for the place of the hips');
    return ankle.y + Math.sqrt(rest);
  };
  // Fixed point: the tilt moves the hips sideways by its cosine only, so it settles in a few rounds.
  let tilt = 0;
  for (let round = 0; round < 40; round += 1)
    tilt = Math.asin(Math.max(-0.9, Math.min(0.9, (height(1, tilt) - height(-1, tilt)) / hipWidth)));
  const middle = vector(plan.x, (height(1, tilt) + height(-1, tilt)) / 2, plan.z);
  const across = add(scale(level, Math.cos(tilt)), scale(UP, Math.sin(tilt)));
  return {
    middle,
    across,
    lead: along(middle, across, half),
    trail: along(middle, across, -half),
    forward: vector(-Math.sin(plan.turn), 0, Math.cos(plan.turn)),
  };
}

/** The knee bends toward where the foot and the hips point, half and half. */
export function kneeOf(scenario: Scenario, hip: Vector, foot: Foot, hipsForward: Vector): Vector {
  const { thigh, shank } = scenario.body;
  const footForward = vector(foot.forward.x, 0, foot.forward.z);
  return middleJoint(hip, foot.ankle, thigh, shank, add(scale(footForward, 0.65), scale(hipsForward, 0.35)));
}
