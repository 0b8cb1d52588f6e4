import type { Club } from './club.ts';
import type { Foot } from './legs.ts';
import type { Pose } from './swing-motion.ts';
import { mirror } from './vector.ts';

/** The same pose seen in a mirror that stands square to the target line: a left-hander's. */
export function mirroredPose(pose: Pose): Pose {
  return {
    hips: {
      middle: mirror(pose.hips.middle),
      lead: mirror(pose.hips.lead),
      trail: mirror(pose.hips.trail),
      forward: mirror(pose.hips.forward),
      across: mirror(pose.hips.across),
    },
    trunk: {
      tailbone: mirror(pose.trunk.tailbone),
      neckBase: mirror(pose.trunk.neckBase),
      headCentre: mirror(pose.trunk.headCentre),
      leadShoulder: mirror(pose.trunk.leadShoulder),
      trailShoulder: mirror(pose.trunk.trailShoulder),
      leadArmRoot: mirror(pose.trunk.leadArmRoot),
      trailArmRoot: mirror(pose.trunk.trailArmRoot),
      spine: mirror(pose.trunk.spine),
      chest: mirror(pose.trunk.chest),
      crown: mirror(pose.trunk.crown),
      look: mirror(pose.trunk.look),
    },
    leadFoot: mirroredFoot(pose.leadFoot),
    trailFoot: mirroredFoot(pose.trailFoot),
    leadKnee: mirror(pose.leadKnee),
    trailKnee: mirror(pose.trailKnee),
    leadArmRoot: mirror(pose.leadArmRoot),
    trailArmRoot: mirror(pose.trailArmRoot),
    leadElbow: mirror(pose.leadElbow),
    trailElbow: mirror(pose.trailElbow),
    leadWrist: mirror(pose.leadWrist),
    trailWrist: mirror(pose.trailWrist),
    club: mirroredClub(pose.club),
    ball: mirror(pose.ball),
  };
}

function mirroredFoot(foot: Foot): Foot {
  return {
    heel: mirror(foot.heel),
    toe: mirror(foot.toe),
    ankle: mirror(foot.ankle),
    forward: mirror(foot.forward),
    sole: mirror(foot.sole),
  };
}

function mirroredClub(club: Club): Club {
  return {
    gripEnd: mirror(club.gripEnd),
    head: mirror(club.head),
    leadHand: mirror(club.leadHand),
    trailHand: mirror(club.trailHand),
    shaft: mirror(club.shaft),
    face: mirror(club.face),
    toe: mirror(club.toe),
  };
}
