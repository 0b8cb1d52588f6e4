import { expect, test } from 'vitest';
import { DEMO_LESSONS, demoScenario } from '../../../core/demo/demo-scenario.ts';
import { isImplausible } from '../../../core/measure/plausible.ts';
import { readSwing } from '../../../core/measure/read-swing.ts';
import { BODY_POINTS, BODY_POINT_INFO } from '../../../core/model/body-points.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { CHECKPOINTS, HANDEDNESS, VIEWS } from '../../../core/model/words.ts';
import type { Handedness } from '../../../core/model/words.ts';
import { checkpointFrames } from '../../../core/scene/checkpoint-frames.ts';
import { truthOf } from '../../../core/scene/truth.ts';

/** The true swing of a demo lesson, every body point named by `nameOf` the point that it is. */
function swingOf(lesson: 'then' | 'now', hand: Handedness, nameOf: (point: BodyPointId) => BodyPointId): MarkedSwing {
  const scenario = demoScenario(lesson, hand);
  const frames = checkpointFrames(scenario);
  const ref = (index: number) => ({ index, pts: index, ticks: 1 });
  return {
    ...{ studentFirstName: 'Robin', date: '2026-05-12', club: '7 iron', handedness: hand },
    clips: VIEWS.map((view) => ({
      ...{ view, ...scenario.picture, timebase: { num: 1, den: 120 }, nominalRate: { num: 120, den: 1 } },
      captureRate: { framesPerSecond: { num: 120, den: 1 }, confirmed: true },
      checkpoints: Object.fromEntries(CHECKPOINTS.map((name) => [name, ref(frames[name])])),
      marks: CHECKPOINTS.map((name) => {
        const truth = truthOf(scenario, view, frames[name]);
        const points = BODY_POINTS.filter((point) => BODY_POINT_INFO[point].views.includes(view));
        return {
          frame: ref(frames[name]),
          points: Object.fromEntries(points.map((point) => [nameOf(point), { ...truth[point], hidden: false }])),
          shapes: [],
        };
      }),
    })),
  };
}

const asked = (swing: MarkedSwing) =>
  readSwing(swing).flatMap((reading) => (reading.state === 'measured' && isImplausible(reading) ? [reading.id] : []));

test.each(DEMO_LESSONS.flatMap((lesson) => HANDEDNESS.map((hand) => [lesson, hand] as const)))(
  'nothing is asked about the true swing of %s, %s-handed',
  (lesson, hand) => {
    expect(asked(swingOf(lesson, hand, (point) => point))).toEqual([]);
  },
);

test('points that were swapped are asked about', () => {
  const swap = (a: BodyPointId, b: BodyPointId) => (point: BodyPointId) => (point === a ? b : point === b ? a : point);
  expect(asked(swingOf('now', 'right', swap('tailbone', 'neck-base')))).toContain('back-incline');
  expect(asked(swingOf('now', 'right', swap('lead-knee', 'lead-hip')))).toContain('lead-knee');
  expect(asked(swingOf('now', 'right', swap('grip-end', 'clubhead')))).toContain('shaft-incline');
});
