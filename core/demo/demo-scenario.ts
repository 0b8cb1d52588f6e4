import demo from '../../resources/demo-scenario.json' with { type: 'json' };
import { HANDEDNESS } from '../model/words.ts';
import type { Handedness } from '../model/words.ts';
import type { Scenario } from '../scene/scenario.ts';

export const DEMO_LESSONS = ['then', 'now'] as const;
export type DemoLesson = (typeof DEMO_LESSONS)[number];

/** The swing of one of the two demo lessons. `handedness` other than the student's gives the mirrored player. */
export function demoScenario(lesson: DemoLesson, handedness: Handedness = studentHandedness()): Scenario {
  return { ...demo.scene, handedness, motion: { ...demo.scene.motion, ...demo.lessons[lesson].motion } };
}

/** The way the demo's student plays. */
export function studentHandedness(): Handedness {
  const found = HANDEDNESS.find((word) => word === demo.student.handedness);
  if (found === undefined) throw new Error('demo-scenario.json: handedness must be right or left');
  return found;
}
