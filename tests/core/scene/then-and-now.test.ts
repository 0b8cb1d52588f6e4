import { describe, expect, test } from 'vitest';
import { demoScenario } from '../../../core/demo/demo-scenario.ts';
import type { DemoLesson } from '../../../core/demo/demo-scenario.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import { checkpointFrames } from '../../../core/scene/checkpoint-frames.ts';
import { impactSeconds, poseAt } from '../../../core/scene/swing-motion.ts';
import type { Pose } from '../../../core/scene/swing-motion.ts';
import { truthOf } from '../../../core/scene/truth.ts';
import { angleBetween, degrees, subtract } from '../../../core/scene/vector.ts';
import { within } from '../../support/within.ts';

function poseNamed(lesson: DemoLesson, checkpoint: Checkpoint): Pose {
  const scenario = demoScenario(lesson);
  return poseAt(scenario, checkpointFrames(scenario)[checkpoint] / scenario.framesPerSecond);
}

describe('what changed between the lessons is there in the truth', () => {
  test('shoulder turn to the spine of address: too flat by 15 degrees, then square', () => {
    const angle = (lesson: DemoLesson): number => {
      const { trunk: then } = poseNamed(lesson, 'address');
      const { trunk: top } = poseNamed(lesson, 'top');
      return degrees(
        angleBetween(subtract(top.trailShoulder, top.leadShoulder), subtract(then.neckBase, then.tailbone)),
      );
    };
    within(angle('then'), 105, 1.5, 'then, deg');
    within(angle('now'), 90, 1.5, 'now, deg');
  });

  test('the same in the picture down the line, within what perspective does to it', () => {
    const angle = (lesson: DemoLesson): number => {
      const scenario = demoScenario(lesson);
      const frames = checkpointFrames(scenario);
      const address = truthOf(scenario, 'down-the-line', frames.address);
      const top = truthOf(scenario, 'down-the-line', frames.top);
      const flat = (a: { x: number; y: number }, b: { x: number; y: number }): { x: number; y: number; z: number } => ({
        x: b.x - a.x,
        y: b.y - a.y,
        z: 0,
      });
      return degrees(
        angleBetween(flat(top['lead-shoulder'], top['trail-shoulder']), flat(address.tailbone, address['neck-base'])),
      );
    };
    within(angle('then') - angle('now'), 15, 3, 'difference, deg');
  });

  test('head drift away from the target at the top: several centimetres, then little', () => {
    const drift = (lesson: DemoLesson): number =>
      poseNamed(lesson, 'top').trunk.headCentre.x - poseNamed(lesson, 'address').trunk.headCentre.x;
    within(drift('then'), -0.065, 0.01, 'then, m');
    within(drift('now'), -0.012, 0.01, 'now, m');
  });

  test('trail knee at the top: stayed bent, now eases straight', () => {
    const opened = (lesson: DemoLesson): number => {
      const knee = (pose: Pose): number =>
        degrees(
          angleBetween(subtract(pose.hips.trail, pose.trailKnee), subtract(pose.trailFoot.ankle, pose.trailKnee)),
        );
      return knee(poseNamed(lesson, 'top')) - knee(poseNamed(lesson, 'address'));
    };
    within(opened('then'), -9, 0.5, 'then, deg');
    within(opened('now'), 9, 0.5, 'now, deg');
  });

  test('lead foot at address: 5 degrees turned out, then 25; the square foot slips by the finish', () => {
    const flare = (lesson: DemoLesson, checkpoint: Checkpoint): number => {
      const { heel, toe } = poseNamed(lesson, checkpoint).leadFoot;
      return degrees(Math.atan2(toe.x - heel.x, toe.z - heel.z));
    };
    within(flare('then', 'address'), 5, 1e-9);
    within(flare('now', 'address'), 25, 1e-9);
    expect(flare('then', 'finish') - flare('then', 'address')).toBeGreaterThan(10);
    within(flare('now', 'finish'), 25, 1e-9);
  });

  test('the arc bottoms out behind the ball, then ahead of it', () => {
    const lowPoint = (lesson: DemoLesson): number => {
      const scenario = demoScenario(lesson);
      const impact = impactSeconds(scenario);
      let low = poseAt(scenario, impact).club.head;
      for (let step = -200; step <= 200; step += 1) {
        const { head } = poseAt(scenario, impact + step / 10_000).club;
        if (head.y < low.y) low = head;
      }
      return low.x - scenario.ball.x;
    };
    expect(lowPoint('then')).toBeLessThan(-0.04);
    expect(lowPoint('now')).toBeGreaterThan(0.01);
  });
});
