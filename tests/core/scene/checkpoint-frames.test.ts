import { describe, expect, test } from 'vitest';
import { DEMO_LESSONS, demoScenario } from '../../../core/demo/demo-scenario.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';
import { checkpointFrames } from '../../../core/scene/checkpoint-frames.ts';
import { poseOfFrame } from '../../../core/scene/truth.ts';
import { within } from '../../support/within.ts';

describe.each(DEMO_LESSONS)('checkpoints of %s', (lesson) => {
  const scenario = demoScenario(lesson);
  const frames = checkpointFrames(scenario);
  const at = (frame: number): ReturnType<typeof poseOfFrame> => poseOfFrame(scenario, frame);

  test('come in the order of a swing', () => {
    const list = CHECKPOINTS.map((checkpoint) => frames[checkpoint]);
    expect(list).toEqual(list.toSorted((a, b) => a - b));
    expect(new Set(list).size).toBe(CHECKPOINTS.length);
  });

  test('are each the frame that their definition names', () => {
    expect(at(frames.address).club).toEqual(at(0).club);
    expect(at(frames.address + 1).club).not.toEqual(at(0).club);
    const shaftRise = (frame: number): number => at(frame).club.head.y - at(frame).club.gripEnd.y;
    for (const checkpoint of ['takeaway', 'through'] as const) {
      expect(shaftRise(frames[checkpoint])).toBeGreaterThanOrEqual(0);
      expect(shaftRise(frames[checkpoint] - 1)).toBeLessThan(0);
    }
    const armRise = (frame: number): number => at(frame).club.leadHand.y - at(frame).trunk.leadShoulder.y;
    expect(armRise(frames['lead-arm-level'])).toBeGreaterThanOrEqual(0);
    expect(armRise(frames['lead-arm-level'] - 1)).toBeLessThan(0);
    expect(armRise(frames['lead-arm-level-down'])).toBeLessThan(0);
    expect(armRise(frames['lead-arm-level-down'] - 1)).toBeGreaterThanOrEqual(0);
    expect(at(frames.impact).ball).toEqual(at(0).ball);
    expect(at(frames.impact + 1).ball.x).toBeGreaterThan(at(0).ball.x);
    within(at(frames.impact).club.head.x, scenario.ball.x - scenario.club.contactGap, 0.001, 'clubhead at impact, m');
    expect(at(frames.finish)).toMatchObject({ trunk: at(scenario.frameCount - 1).trunk });
    expect(at(frames.finish - 1).trunk).not.toEqual(at(scenario.frameCount - 1).trunk);
  });

  test('leave stillness before and after, and a plausible tempo between', () => {
    const seconds = (from: number, to: number): number => (to - from) / scenario.framesPerSecond;
    expect(seconds(0, frames.address)).toBeGreaterThanOrEqual(0.4);
    expect(seconds(frames.finish, scenario.frameCount - 1)).toBeGreaterThanOrEqual(0.4);
    within(seconds(frames.address, frames.top), 0.8, 0.02, 'backswing, s');
    within(seconds(frames.top, frames.impact), 0.26, 0.02, 'downswing, s');
  });

  test('are the same for the left-handed mirror image', () => {
    expect(checkpointFrames({ ...scenario, handedness: 'left' })).toEqual(frames);
  });
});
