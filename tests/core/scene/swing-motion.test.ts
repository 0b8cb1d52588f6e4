import { describe, expect, test } from 'vitest';
import { DEMO_LESSONS, demoScenario } from '../../../core/demo/demo-scenario.ts';
import { impactSeconds, poseAt } from '../../../core/scene/swing-motion.ts';
import { pointsInWorld, poseOfFrame } from '../../../core/scene/truth.ts';
import { along, distance, dot, mirror, subtract, vector } from '../../../core/scene/vector.ts';
import { BODY_POINTS } from '../../../core/model/body-points.ts';
import { within } from '../../support/within.ts';

/** Rounding of a handful of double operations on metres. */
const EXACT = 1e-9;

describe.each(DEMO_LESSONS)('the player of %s', (lesson) => {
  const scenario = demoScenario(lesson);
  const { body, club } = scenario;
  const poses = Array.from({ length: scenario.frameCount }, (_, frame) => poseOfFrame(scenario, frame));

  test('has bones and a club that keep their length in every frame', () => {
    for (const [frame, pose] of poses.entries()) {
      const bones: [string, number, number][] = [
        ['lead thigh', distance(pose.hips.lead, pose.leadKnee), body.thigh],
        ['trail thigh', distance(pose.hips.trail, pose.trailKnee), body.thigh],
        ['lead shank', distance(pose.leadKnee, pose.leadFoot.ankle), body.shank],
        ['trail shank', distance(pose.trailKnee, pose.trailFoot.ankle), body.shank],
        ['lead upper arm', distance(pose.leadArmRoot, pose.leadElbow), body.upperArm],
        ['trail upper arm', distance(pose.trailArmRoot, pose.trailElbow), body.upperArm],
        ['lead forearm', distance(pose.leadElbow, pose.leadWrist), body.forearm],
        ['trail forearm', distance(pose.trailElbow, pose.trailWrist), body.forearm],
        ['lead hand', distance(pose.leadWrist, pose.club.leadHand), body.hand],
        ['trail hand', distance(pose.trailWrist, pose.club.trailHand), body.hand],
        ['shoulders', distance(pose.trunk.leadShoulder, pose.trunk.trailShoulder), body.shoulderWidth],
        ['hips', distance(pose.hips.lead, pose.hips.trail), body.hipWidth],
        ['spine', distance(pose.trunk.tailbone, pose.trunk.neckBase), body.spine],
        ['neck', distance(pose.trunk.neckBase, pose.trunk.headCentre), body.neck],
        ['lead shoe', distance(pose.leadFoot.heel, pose.leadFoot.toe), body.shoe],
        ['trail shoe', distance(pose.trailFoot.heel, pose.trailFoot.toe), body.shoe],
        ['club', distance(pose.club.gripEnd, pose.club.head), club.length],
      ];
      for (const [bone, length, expected] of bones)
        within(length, expected, EXACT, `${bone} in frame ${String(frame)}`);
    }
  });

  test('holds the grip with both hands at the same places in every frame', () => {
    for (const { club: held } of poses) {
      within(distance(held.leadHand, along(held.gripEnd, held.shaft, club.leadHand)), 0, EXACT, 'lead hand');
      within(distance(held.trailHand, along(held.gripEnd, held.shaft, club.trailHand)), 0, EXACT, 'trail hand');
    }
  });

  test('draws the arms out of the shoulders by no more than 5 cm', () => {
    for (const pose of poses) {
      expect(distance(pose.leadArmRoot, pose.trunk.leadArmRoot)).toBeLessThan(0.05);
      expect(distance(pose.trailArmRoot, pose.trunk.trailArmRoot)).toBeLessThan(0.05);
    }
  });

  test('stands on the ground: toes stay down, no foot or clubhead sinks', () => {
    for (const pose of poses) {
      for (const foot of [pose.leadFoot, pose.trailFoot]) {
        within(foot.toe.y, 0, EXACT, 'toe above the ground');
        expect(foot.heel.y).toBeGreaterThanOrEqual(-EXACT);
      }
      within(pose.leadFoot.heel.y, 0, EXACT, 'lead heel above the ground');
      // Half the height of the clubhead is some 25 mm: its middle must stay that far up, but for a brush of turf.
      expect(pose.club.head.y).toBeGreaterThan(0.02);
    }
    expect(poses[poses.length - 1]?.trailFoot.heel.y).toBeGreaterThan(0.2);
  });

  test('brings the clubhead to the ball at impact, moving toward the target', () => {
    const at = impactSeconds(scenario);
    const pose = poseAt(scenario, at);
    const contact = vector(scenario.ball.x - club.contactGap, club.soledHeight, scenario.ball.z);
    within(distance(pose.club.head, contact), 0, 0.001, 'clubhead from the point of contact, m');
    const before = poseAt(scenario, at - 0.0005).club.head;
    const after = poseAt(scenario, at + 0.0005).club.head;
    const speed = distance(before, after) / 0.001;
    // A 7 iron of a good amateur: 30 to 42 m/s. Common practice, no published source.
    within(speed, 36, 6, 'clubhead speed, m/s');
    expect(dot(subtract(after, before), vector(1, 0, 0)) / distance(before, after)).toBeGreaterThan(0.99);
  });

  test('moves smoothly: no body point jumps, and none changes its step by much from frame to frame', () => {
    for (let frame = 2; frame < poses.length; frame += 1) {
      const [a, b, c] = [poses[frame - 2], poses[frame - 1], poses[frame]].map((pose) =>
        pose === undefined ? null : pointsInWorld(pose),
      );
      if (!a || !b || !c) throw new Error('no pose');
      for (const point of BODY_POINTS) {
        if (point === 'ball') continue;
        const far = point === 'clubhead';
        expect(distance(b[point], c[point]), `${point} in frame ${String(frame)}`).toBeLessThan(far ? 0.35 : 0.1);
        const change = distance(subtract(c[point], b[point]), subtract(b[point], a[point]));
        expect(change, `${point} in frame ${String(frame)}`).toBeLessThan(far ? 0.12 : 0.03);
      }
    }
  });

  test('is the exact mirror image when left-handed', () => {
    const left = { ...scenario, handedness: 'left' as const };
    for (const frame of [0, 84, 144, 175, 190, 289]) {
      const right = pointsInWorld(poseOfFrame(scenario, frame));
      const other = pointsInWorld(poseOfFrame(left, frame));
      for (const point of BODY_POINTS) expect(other[point]).toEqual(mirror(right[point]));
    }
  });
});

test('a ball out of reach is refused', () => {
  const scenario = demoScenario('now');
  expect(() => poseAt({ ...scenario, ball: { ...scenario.ball, z: 1.2 } }, 0)).toThrow('out of reach');
});
