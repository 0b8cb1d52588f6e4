import type { Hips } from './legs.ts';
import type { Scenario } from './scenario.ts';
import { add, along, cross, scale, squareTo, subtract, unit, vector } from './vector.ts';
import type { Vector } from './vector.ts';

/** Tailbone behind and above the middle of the hip joints, metres. */
const TAILBONE_BEHIND = 0.1;
const TAILBONE_ABOVE = 0.03;
/** The shoulders' middle below the neck base along the turn axis, and ahead of it, metres (acromion against C7, ANSUR II). */
const SHOULDERS_BELOW = 0.06;
const SHOULDERS_AHEAD = 0.055;

/** The arm's joint lies inside and below the bony tip of the shoulder, metres. */
const ARM_ROOT_INSIDE = 0.035;
const ARM_ROOT_BELOW = 0.025;

export interface Trunk {
  readonly tailbone: Vector;
  readonly neckBase: Vector;
  readonly headCentre: Vector;
  readonly leadShoulder: Vector;
  readonly trailShoulder: Vector;
  /** Where the arms hang in the resting shoulder; a far reach draws them forward with the shoulder blade. */
  readonly leadArmRoot: Vector;
  readonly trailArmRoot: Vector;
  /** Unit vectors: up the spine, and where the chest points. */
  readonly spine: Vector;
  readonly chest: Vector;
  /** Unit vectors of the head: up out of the crown, and where the face looks. */
  readonly crown: Vector;
  readonly look: Vector;
}

/** Angles in radians, see the channels of the same names in scenario.ts. */
export interface TrunkPlan {
  readonly neckX: number;
  readonly neckZ: number;
  readonly headLean: number;
  readonly headSide: number;
  readonly faceTurn: number;
  readonly faceDown: number;
  readonly shoulderTurn: number;
  readonly axisLean: number;
  readonly axisSide: number;
}

/** A direction near vertical that leans by `lean` toward the ball and by `side` toward the target. */
export function leaning(lean: number, side: number): Vector {
  return unit(vector(Math.tan(side), 1, Math.tan(lean)));
}

/**
 * Sets the spine on the hips, and shoulders and head on the spine. The spine is one straight line; the shoulders turn
 * round an axis of their own, which equals the spine when a player turns square to it and is more upright when flat.
 */
export function trunkOn(scenario: Scenario, hips: Hips, plan: TrunkPlan): Trunk {
  const { spine: spineLength, neck, shoulderWidth } = scenario.body;
  const tailbone = along(add(hips.middle, vector(0, TAILBONE_ABOVE, 0)), hips.forward, -TAILBONE_BEHIND);
  const dx = plan.neckX - tailbone.x;
  const dz = plan.neckZ - tailbone.z;
  const rest = spineLength * spineLength - dx * dx - dz * dz;
  if (!(rest > 0)) throw new Error('trunkOn: the neck base is out of reach of the spine');
  const neckBase = vector(plan.neckX, tailbone.y + Math.sqrt(rest), plan.neckZ);

  const axis = leaning(plan.axisLean, plan.axisSide);
  const targetward = squareTo(axis, vector(1, 0, 0));
  const ballward = cross(targetward, axis);
  const leadward = add(scale(targetward, Math.cos(plan.shoulderTurn)), scale(ballward, Math.sin(plan.shoulderTurn)));
  const chest = cross(leadward, axis);
  const middle = along(along(neckBase, axis, -SHOULDERS_BELOW), chest, SHOULDERS_AHEAD);

  const crownward = leaning(plan.headLean, plan.headSide);
  const level = vector(Math.sin(plan.faceTurn), 0, Math.cos(plan.faceTurn));
  const look = add(scale(level, Math.cos(plan.faceDown)), vector(0, -Math.sin(plan.faceDown), 0));
  return {
    tailbone,
    neckBase,
    headCentre: along(neckBase, crownward, neck),
    leadShoulder: along(middle, leadward, shoulderWidth / 2),
    trailShoulder: along(middle, leadward, -shoulderWidth / 2),
    leadArmRoot: along(along(middle, leadward, shoulderWidth / 2 - ARM_ROOT_INSIDE), axis, -ARM_ROOT_BELOW),
    trailArmRoot: along(along(middle, leadward, ARM_ROOT_INSIDE - shoulderWidth / 2), axis, -ARM_ROOT_BELOW),
    spine: unit(subtract(neckBase, tailbone)),
    chest,
    crown: squareTo(look, add(crownward, vector(0, 0.6, 0))),
    look,
  };
}
