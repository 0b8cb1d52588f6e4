import type { BodyPointId } from '../model/body-points.ts';
import type { PicturePoint } from '../model/mark.ts';
import type { View } from '../model/words.ts';
import { cameraAimedAt, project } from './camera.ts';
import type { Camera } from './camera.ts';
import type { Scenario } from './scenario.ts';
import { poseAt } from './swing-motion.ts';
import type { Pose } from './swing-motion.ts';
import { mirror } from './vector.ts';
import type { Vector } from './vector.ts';

/** The camera of a view; for a left-hander the mirrored one, so that it still looks along the line, or at the chest. */
export function cameraOf(scenario: Scenario, view: View): Camera {
  const place = scenario.cameras[view];
  const { width, height } = scenario.picture;
  const left = scenario.handedness === 'left';
  const seen = left ? { ...place, from: mirror(place.from), to: mirror(place.to) } : place;
  return cameraAimedAt(seen, width, height);
}

/** Every body point in the world, metres. */
export function pointsInWorld(pose: Pose): Readonly<Record<BodyPointId, Vector>> {
  return {
    'head-centre': pose.trunk.headCentre,
    'neck-base': pose.trunk.neckBase,
    tailbone: pose.trunk.tailbone,
    'lead-shoulder': pose.trunk.leadShoulder,
    'trail-shoulder': pose.trunk.trailShoulder,
    'lead-elbow': pose.leadElbow,
    'trail-elbow': pose.trailElbow,
    'lead-hip': pose.hips.lead,
    'trail-hip': pose.hips.trail,
    'lead-knee': pose.leadKnee,
    'trail-knee': pose.trailKnee,
    'lead-ankle': pose.leadFoot.ankle,
    'trail-ankle': pose.trailFoot.ankle,
    'lead-heel': pose.leadFoot.heel,
    'lead-toe': pose.leadFoot.toe,
    'trail-heel': pose.trailFoot.heel,
    'trail-toe': pose.trailFoot.toe,
    'grip-end': pose.club.gripEnd,
    clubhead: pose.club.head,
    ball: pose.ball,
  };
}

/** The scene at the instant of a frame: frame i is taken at i / framesPerSecond, without any exposure time. */
export function poseOfFrame(scenario: Scenario, frameIndex: number): Pose {
  return poseAt(scenario, frameIndex / scenario.framesPerSecond);
}

/** The true place of every body point in the picture of a frame. The flying ball may lie outside the picture. */
export function truthOf(
  scenario: Scenario,
  view: View,
  frameIndex: number,
): Readonly<Record<BodyPointId, PicturePoint>> {
  const camera = cameraOf(scenario, view);
  const world = pointsInWorld(poseOfFrame(scenario, frameIndex));
  const at = (point: BodyPointId): PicturePoint => inPicture(camera, world[point]);
  return {
    'head-centre': at('head-centre'),
    'neck-base': at('neck-base'),
    tailbone: at('tailbone'),
    'lead-shoulder': at('lead-shoulder'),
    'trail-shoulder': at('trail-shoulder'),
    'lead-elbow': at('lead-elbow'),
    'trail-elbow': at('trail-elbow'),
    'lead-hip': at('lead-hip'),
    'trail-hip': at('trail-hip'),
    'lead-knee': at('lead-knee'),
    'trail-knee': at('trail-knee'),
    'lead-ankle': at('lead-ankle'),
    'trail-ankle': at('trail-ankle'),
    'lead-heel': at('lead-heel'),
    'lead-toe': at('lead-toe'),
    'trail-heel': at('trail-heel'),
    'trail-toe': at('trail-toe'),
    'grip-end': at('grip-end'),
    clubhead: at('clubhead'),
    ball: at('ball'),
  };
}

/** A point that must be in front of the camera; throws when the scenario puts it behind. */
export function inPicture(camera: Camera, point: Vector): PicturePoint {
  const seen = project(camera, point);
  if (seen === null) throw new Error('inPicture: the point is behind the camera');
  return { x: seen.x, y: seen.y };
}

/** Half the width and height of the box round the head, metres: the head with its cap and some 3 cm of air. */
const HEAD_HALF_WIDTH = 0.125;
const HEAD_HALF_HEIGHT = 0.15;

/** An upright box round the head as it stands on a frame, upper left corner and size in pixels. */
export function headBoxAt(
  scenario: Scenario,
  view: View,
  frameIndex: number,
): { readonly x: number; readonly y: number; readonly width: number; readonly height: number } {
  const seen = project(cameraOf(scenario, view), poseOfFrame(scenario, frameIndex).trunk.headCentre);
  if (seen === null) throw new Error('headBoxAt: the head is behind the camera');
  const pixels = scenario.cameras[view].focal / seen.depth;
  return {
    x: seen.x - HEAD_HALF_WIDTH * pixels,
    y: seen.y - HEAD_HALF_HEIGHT * pixels,
    width: 2 * HEAD_HALF_WIDTH * pixels,
    height: 2 * HEAD_HALF_HEIGHT * pixels,
  };
}
