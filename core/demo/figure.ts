import type { Pose } from '../scene/swing-motion.ts';
import type { Foot } from '../scene/legs.ts';
import { add, along, between, cross, distance, scale, squareTo, subtract, unit } from '../scene/vector.ts';
import type { Vector } from '../scene/vector.ts';
import { HAIR, SKIN } from './clothes.ts';
import type { Clothes } from './clothes.ts';
import { egg, limbBetween, skinOver } from './surfaces.ts';
import type { Piece, Ring } from './surfaces.ts';

/** The player of a pose as surfaces. All sizes in metres, those of a man of 1.78 m. */
export function figureOf(pose: Pose, clothes: Clothes): readonly Piece[] {
  return [
    ...legs(pose, clothes),
    ...trunk(pose, clothes),
    ...neck(pose, clothes),
    ...headOf(pose, clothes),
    ...arms(pose, clothes),
  ];
}

function legs(pose: Pose, clothes: Clothes): readonly Piece[] {
  const leg = (hip: Vector, knee: Vector, foot: Foot): readonly Piece[] => {
    const cuff = along(between(knee, foot.ankle, 0.97), foot.sole, -0.01);
    return [
      limbBetween(hip, knee, [0.098, 0.092, 0.08, 0.066], clothes.trousers),
      limbBetween(knee, cuff, [0.066, 0.066, 0.06, 0.056], clothes.trousers),
      ...shoe(foot, clothes),
    ];
  };
  return [
    ...leg(pose.hips.lead, pose.leadKnee, pose.leadFoot),
    ...leg(pose.hips.trail, pose.trailKnee, pose.trailFoot),
  ];
}

function shoe(foot: Foot, clothes: Clothes): readonly Piece[] {
  const side = cross(foot.sole, foot.forward);
  const long = distance(foot.toe, foot.heel);
  const ring = (share: number, rise: number, half: number, high: number): Ring => ({
    centre: along(along(foot.heel, foot.forward, long * share), foot.sole, rise),
    side,
    front: foot.sole,
    halfSide: half,
    halfFront: high,
  });
  const upper = [
    ring(0.005, 0.045, 0.012, 0.03),
    ring(0.05, 0.05, 0.032, 0.044),
    ring(0.22, 0.054, 0.039, 0.05),
    ring(0.45, 0.047, 0.043, 0.042),
    ring(0.7, 0.036, 0.05, 0.031),
    ring(0.88, 0.029, 0.044, 0.022),
    ring(0.97, 0.025, 0.026, 0.014),
    ring(0.995, 0.022, 0.008, 0.005),
  ];
  const sole = [
    ring(0.0, 0.01, 0.012, 0.009),
    ring(0.05, 0.01, 0.034, 0.01),
    ring(0.4, 0.01, 0.038, 0.01),
    ring(0.7, 0.01, 0.052, 0.01),
    ring(0.9, 0.01, 0.044, 0.01),
    ring(1, 0.01, 0.012, 0.009),
  ];
  return [
    skinOver(upper, clothes.shoe),
    skinOver(sole, clothes.sole),
    limbBetween(foot.ankle, along(foot.ankle, foot.sole, -0.035), [0.045, 0.043], clothes.shoe),
  ];
}

/** Cross-sections from the seat to the neck: share of the spine, half width, half depth, how far before the spine line. */
const TRUNK_SECTIONS = [
  [-0.17, 0.04, 0.03, 0.1],
  [-0.13, 0.115, 0.08, 0.096],
  [-0.06, 0.155, 0.112, 0.096],
  [0.02, 0.172, 0.124, 0.096],
  [0.1, 0.172, 0.12, 0.095],
  [0.2, 0.163, 0.114, 0.093],
  [0.245, 0.163, 0.115, 0.093],
  [0.4, 0.164, 0.115, 0.095],
  [0.56, 0.174, 0.119, 0.097],
  [0.7, 0.188, 0.124, 0.096],
  [0.82, 0.196, 0.116, 0.086],
  [0.91, 0.184, 0.098, 0.07],
  [0.97, 0.138, 0.078, 0.055],
  [1.02, 0.09, 0.066, 0.045],
  [1.05, 0.064, 0.058, 0.042],
] as const;
const BELT_FROM = 5;
const SHIRT_FROM = 6;

function trunk(pose: Pose, clothes: Clothes): readonly Piece[] {
  const { tailbone, neckBase, spine, leadShoulder, trailShoulder } = pose.trunk;
  const shoulderward = squareTo(spine, subtract(leadShoulder, trailShoulder));
  const hipward = squareTo(spine, pose.hips.across);
  const rings = TRUNK_SECTIONS.map(([share, halfSide, halfFront, ahead]): Ring => {
    const twist = Math.max(0, Math.min(1, (share - 0.15) / 0.6));
    const side = unit(squareTo(spine, along(scale(hipward, 1 - twist), shoulderward, twist)));
    const chestward = cross(side, spine);
    const towardBelly = unit(subtract(pose.hips.middle, tailbone));
    // Below the belt the sections follow the hips: the legs come out before the seat.
    const front = share < 0.15 ? squareTo(spine, towardBelly) : squareTo(spine, facing(chestward, pose));
    return { centre: along(between(tailbone, neckBase, share), front, ahead), side, front, halfSide, halfFront };
  });
  return [
    skinOver(rings.slice(0, BELT_FROM + 1), clothes.trousers),
    skinOver(rings.slice(BELT_FROM, SHIRT_FROM + 1), clothes.belt),
    skinOver(rings.slice(SHIRT_FROM), clothes.shirt),
    ...(['leadArmRoot', 'trailArmRoot'] as const).map((root) => {
      const inner = between(pose[root], pose.trunk[root === 'leadArmRoot' ? 'trailArmRoot' : 'leadArmRoot'], 0.3);
      return limbBetween(pose[root], inner, [0.06, 0.07, 0.07], clothes.shirt);
    }),
  ];
}

/** A mirrored player's cross product points backwards; the chest always points to the front. */
function facing(direction: Vector, pose: Pose): Vector {
  const { chest } = pose.trunk;
  const forward = add(chest, pose.hips.forward);
  const same = direction.x * forward.x + direction.y * forward.y + direction.z * forward.z;
  return same < 0 ? scale(direction, -1) : direction;
}

function neck({ trunk }: Pose, clothes: Clothes): readonly Piece[] {
  const { headCentre, neckBase, look, crown, chest, spine } = trunk;
  const foot = along(along(neckBase, chest, 0.045), spine, -0.02);
  return [
    limbBetween(foot, along(along(headCentre, look, -0.015), crown, -0.05), [0.062, 0.056, 0.054], SKIN),
    limbBetween(foot, along(foot, unit(subtract(headCentre, foot)), 0.03), [0.07, 0.064], clothes.collar),
  ];
}

/** Head and cap, without the neck. */
export function headOf({ trunk }: Pose, clothes: Clothes): readonly Piece[] {
  const { headCentre, look, crown } = trunk;
  const side = cross(crown, look);
  const axes = { up: crown, side, front: look };
  const at = (ahead: number, up: number, aside = 0): Vector =>
    along(along(along(headCentre, look, ahead), crown, up), side, aside);
  return [
    egg(headCentre, axes, { up: 0.12, side: 0.08, front: 0.098 }, SKIN),
    egg(at(0.028, -0.06), axes, { up: 0.058, side: 0.052, front: 0.062 }, SKIN),
    egg(at(0.093, -0.022), axes, { up: 0.026, side: 0.012, front: 0.018 }, SKIN),
    egg(at(-0.01, -0.012, 0.08), axes, { up: 0.03, side: 0.011, front: 0.018 }, SKIN),
    egg(at(-0.01, -0.012, -0.08), axes, { up: 0.03, side: 0.011, front: 0.018 }, SKIN),
    egg(at(-0.018, 0.0), axes, { up: 0.112, side: 0.084, front: 0.09 }, HAIR, -0.45, 0.5),
    egg(at(-0.003, 0.022), axes, { up: 0.114, side: 0.09, front: 0.108 }, clothes.cap, 0.08, 1),
    egg(at(0.105, 0.032), axes, { up: 0.011, side: 0.072, front: 0.07 }, clothes.cap),
  ];
}

function arms(pose: Pose, clothes: Clothes): readonly Piece[] {
  const arm = (root: Vector, elbow: Vector, wrist: Vector): readonly Piece[] => [
    limbBetween(root, between(root, elbow, 0.62), [0.074, 0.07, 0.064, 0.062], clothes.shirt),
    limbBetween(between(root, elbow, 0.45), elbow, [0.05, 0.047, 0.043], SKIN),
    limbBetween(elbow, wrist, [0.043, 0.045, 0.038, 0.03], SKIN),
  ];
  return [
    ...arm(pose.leadArmRoot, pose.leadElbow, pose.leadWrist),
    ...arm(pose.trailArmRoot, pose.trailElbow, pose.trailWrist),
  ];
}
