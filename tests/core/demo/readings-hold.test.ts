import { expect, test } from 'vitest';
import { demoScenario } from '../../../core/demo/demo-scenario.ts';
import { readSwing } from '../../../core/measure/read-swing.ts';
import { seeded } from '../../../core/measure/seeded.ts';
import { BODY_POINTS, BODY_POINT_INFO } from '../../../core/model/body-points.ts';
import type { PicturePoint, Shape } from '../../../core/model/mark.ts';
import type { MeasuredReading } from '../../../core/model/reading.ts';
import type { MarkedSwing } from '../../../core/model/swing.ts';
import { CHECKPOINTS, VIEWS } from '../../../core/model/words.ts';
import { checkpointFrames } from '../../../core/scene/checkpoint-frames.ts';
import { plumbOf, yardstickOf } from '../../../core/scene/still-marks.ts';
import { headBoxAt, truthOf } from '../../../core/scene/truth.ts';

/**
 * The demo's own promise: with every click on points and on the ends of plumb and yardstick off by a normal error of 3 px
 * in x and in y, the 95 % interval of a reading holds the reading of the exact truth in at least 95 % of placements,
 * less four standard errors of that count. The head box is left where it was drawn; the measuring tests disturb it.
 */
const SEED = 20260512;
const CLICK = 3;
const TRIALS = 300;
const LEAST = 0.95 - 4 * Math.sqrt((0.95 * 0.05) / TRIALS);

test.each(['then', 'now'] as const)(
  'readings of %s hold the truth within their own ± (seed 20260512)',
  (lesson) => {
    const numbers = seeded(SEED);
    const click = ({ x, y }: PicturePoint): PicturePoint => ({
      x: x + CLICK * numbers.normal(),
      y: y + CLICK * numbers.normal(),
    });
    const measured = (swing: MarkedSwing): readonly MeasuredReading[] =>
      readSwing(swing).filter((reading) => reading.state === 'measured');
    const name = (reading: MeasuredReading): string =>
      [reading.id, reading.aspect, reading.view, reading.checkpoint].join(' ');

    const expected = new Map(measured(swingOf(lesson, (point) => point)).map((reading) => [name(reading), reading]));
    expect(expected.size).toBeGreaterThan(80);
    const held = new Map<string, number>();
    for (let trial = 0; trial < TRIALS; trial += 1)
      for (const reading of measured(swingOf(lesson, click))) {
        const truth = expected.get(name(reading));
        if (truth === undefined) continue;
        if (truth.value >= reading.interval[0] && truth.value <= reading.interval[1])
          held.set(name(reading), (held.get(name(reading)) ?? 0) + 1);
      }
    const tooSeldom = [...expected.keys()]
      .map((key) => ({ key, part: (held.get(key) ?? 0) / TRIALS }))
      .filter(({ part }) => part < LEAST);
    expect(tooSeldom).toEqual([]);
  },
  120_000,
);

function swingOf(lesson: 'then' | 'now', place: (point: PicturePoint) => PicturePoint): MarkedSwing {
  const scenario = demoScenario(lesson);
  const frames = checkpointFrames(scenario);
  const clips = VIEWS.map((view) => {
    const ref = (index: number): { index: number; pts: number; ticks: number } => ({
      index,
      pts: index * 128,
      ticks: 128,
    });
    const [plumb, stick] = [plumbOf(scenario, view), yardstickOf(scenario, view)];
    const shapes: readonly Shape[] = [
      { kind: 'line', id: 'plumb', a: place(plumb[0]), b: place(plumb[1]), role: 'plumb', lengthMm: null },
      {
        kind: 'line',
        id: 'stick',
        a: place(stick.ends[0]),
        b: place(stick.ends[1]),
        role: 'yardstick',
        lengthMm: stick.lengthMm,
      },
      { kind: 'box', id: 'box', role: 'head-box', ...headBoxAt(scenario, view, frames.address) },
    ];
    return {
      view,
      ...scenario.picture,
      timebase: { num: 1, den: 15360 },
      nominalRate: { num: 120, den: 1 },
      captureRate: { framesPerSecond: { num: 120, den: 1 }, confirmed: true },
      checkpoints: Object.fromEntries(CHECKPOINTS.map((checkpoint) => [checkpoint, ref(frames[checkpoint])])),
      marks: CHECKPOINTS.map((checkpoint) => {
        const truth = truthOf(scenario, view, frames[checkpoint]);
        const points = BODY_POINTS.filter((point) => BODY_POINT_INFO[point].views.includes(view));
        return {
          frame: { index: frames[checkpoint], pts: frames[checkpoint] * 128 },
          points: Object.fromEntries(points.map((point) => [point, { ...place(truth[point]), hidden: false }])),
          shapes: checkpoint === 'address' ? shapes : [],
        };
      }),
    };
  });
  return {
    studentFirstName: 'Robin',
    date: '2026-05-12',
    club: '7 iron',
    handedness: scenario.handedness,
    clips,
  };
}
