import { lowerAndTrunk } from './body-on-feet.ts';
import { channelTracks } from './channel-tracks.ts';
import type { ChannelValues } from './channel-tracks.ts';
import { clubIn, inPlane } from './club.ts';
import type { Club } from './club.ts';
import { kneeOf } from './legs.ts';
import type { Foot, Hips } from './legs.ts';
import { drawnRoot, middleJoint } from './limb.ts';
import { mirroredPose } from './mirrored-pose.ts';
import type { Scenario } from './scenario.ts';
import type { Trunk } from './trunk.ts';
import { add, along, between, radians, scale, subtract, unit, vector } from './vector.ts';
import type { Vector } from './vector.ts';

/** Where every part of the player, the club and the ball is at one instant; metres, see vector.ts for the axes. */
export interface Pose {
  readonly hips: Hips;
  readonly trunk: Trunk;
  readonly leadFoot: Foot;
  readonly trailFoot: Foot;
  readonly leadKnee: Vector;
  readonly trailKnee: Vector;
  /** Where the arms hang: the joints of the upper arms. */
  readonly leadArmRoot: Vector;
  readonly trailArmRoot: Vector;
  readonly leadElbow: Vector;
  readonly trailElbow: Vector;
  readonly leadWrist: Vector;
  readonly trailWrist: Vector;
  readonly club: Club;
  readonly ball: Vector;
}

const GRAVITY = 9.81;

const prepared = new WeakMap<Scenario, (seconds: number) => ChannelValues>();

/**
 * The scene at `seconds` after the first frame; before the first key and after the last one everything but the ball
 * stands still. A left-hander is the exact mirror image. Throws when the scenario asks for a place out of reach.
 */
export function poseAt(scenario: Scenario, seconds: number): Pose {
  const tracks = prepared.get(scenario) ?? channelTracks(scenario);
  prepared.set(scenario, tracks);
  const pose = rightHandedPose(scenario, tracks(seconds), ballAt(scenario, seconds));
  return scenario.handedness === 'left' ? mirroredPose(pose) : pose;
}

/** Seconds from the first frame to the instant at which the clubhead meets the ball. */
export function impactSeconds(scenario: Scenario): number {
  return (scenario.keyFrames[scenario.impactKey] ?? 0) / scenario.framesPerSecond;
}

function rightHandedPose(scenario: Scenario, value: ChannelValues, ball: Vector): Pose {
  const { body } = scenario;
  const standing = (channel: 'leadFlare' | 'trailFlare'): number => radians(scenario.motion[channel][0] ?? 0);
  const { leadFoot, trailFoot, hips, trunk } = lowerAndTrunk(
    scenario,
    value,
    standing('leadFlare'),
    standing('trailFlare'),
  );
  const lower = body.forearm + body.hand;
  const armward = inPlane(radians(scenario.armPlane), value('armAngle'), value('armOff'));
  const full = body.upperArm + lower;
  const leadHand = along(trunk.leadArmRoot, armward, value('armReach') * full);
  const club = clubIn(scenario, leadHand, {
    plane: value('shaftPlane'),
    angle: value('shaftAngle'),
    off: value('shaftOff'),
    face: value('faceTurn'),
  });
  const leadArmRoot = drawnRoot(trunk.leadArmRoot, leadHand, full);
  const trailArmRoot = drawnRoot(trunk.trailArmRoot, club.trailHand, full);
  const elbow = (root: Vector, hand: Vector, side: 1 | -1, out: number): Vector =>
    middleJoint(root, hand, body.upperArm, lower, elbowward(trunk, side, out));
  const leadElbow = elbow(leadArmRoot, leadHand, 1, value('leadElbow'));
  const trailElbow = elbow(trailArmRoot, club.trailHand, -1, value('trailElbow'));
  return {
    hips,
    trunk,
    leadFoot,
    trailFoot,
    leadKnee: kneeOf(scenario, hips.lead, leadFoot, hips.forward),
    trailKnee: kneeOf(scenario, hips.trail, trailFoot, hips.forward),
    leadArmRoot,
    trailArmRoot,
    leadElbow,
    trailElbow,
    leadWrist: between(leadElbow, leadHand, body.forearm / lower),
    trailWrist: between(trailElbow, club.trailHand, body.forearm / lower),
    club,
    ball,
  };
}

/** Where an elbow points: down and a little back, swung by `out` radians away from the middle of the body. */
function elbowward(trunk: Trunk, side: 1 | -1, out: number): Vector {
  const outward = scale(unit(subtract(trunk.leadShoulder, trunk.trailShoulder)), side);
  const down = add(vector(0, -1, 0), scale(trunk.chest, -0.35));
  return add(scale(down, Math.cos(out)), scale(outward, Math.sin(out)));
}

/** At rest up to and at impact, then in free flight without drag; it does not fall below the ground. */
function ballAt(scenario: Scenario, seconds: number): Vector {
  const { x, z, radius, speed, launch } = scenario.ball;
  const flown = Math.max(0, seconds - impactSeconds(scenario));
  const rise = speed * Math.sin(radians(launch)) * flown - (GRAVITY / 2) * flown * flown;
  return vector(x + speed * Math.cos(radians(launch)) * flown, radius + Math.max(0, rise), z);
}
