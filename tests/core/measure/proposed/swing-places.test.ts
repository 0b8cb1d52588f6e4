import { describe, expect, test } from 'vitest';
import { learnErrors, ratioToTell, toldAt, toldByAll } from '../../../../core/measure/proposed/learn-errors.ts';
import type { LearntError } from '../../../../core/measure/proposed/learn-errors.ts';
import { inListOrder, learntInWords } from '../../../../core/measure/proposed/learnt-words.ts';
import { showLearnt } from '../../../../core/measure/proposed/show-learnt.ts';
import { SWING_PLACES, swingPlaceOf } from '../../../../core/measure/proposed/swing-places.ts';
import type { Correction } from '../../../../core/model/proposed-points.ts';
import { CHECKPOINTS } from '../../../../core/model/words.ts';
import type { Checkpoint } from '../../../../core/model/words.ts';
import { sized } from '../../../support/sized.ts';
import { within } from '../../../support/within.ts';
import { ASSUMED, coachOf, held, SIZE } from './coach.ts';
import type { Truth } from './coach.ts';

const SEED = 17_12_02;
const DRAWS = sized(24, 200);
const BASE = { offset: { x: 0, y: 0 }, lesson: 0.5, frame: 0.5, lets: 4, unseen: 0.1 };
/** A joint that the model sees well at address, badly at the top and elsewhere at impact. */
const WORLD: Readonly<Partial<Record<Checkpoint, Truth>>> = {
  address: { ...BASE, lesson: 0.3, frame: 0.3 },
  top: { ...BASE, offset: { x: 30, y: -20 }, lesson: 0.9, frame: 0.9 },
  impact: { ...BASE, offset: { x: -25, y: 0 }, lesson: 0.5, frame: 0.5 },
};
type Named = keyof typeof WORLD;
const NAMED = Object.keys(WORLD) as Named[];

/** One coach, who goes through the same lessons at each checkpoint; what is learnt is used from the eighth lesson on. */
function coachedAt(counts: Readonly<Partial<Record<Named, number>>>, seed: number) {
  const coaches = NAMED.map((checkpoint) => {
    const truth = WORLD[checkpoint];
    if (truth === undefined) throw new Error('no such world');
    return { checkpoint, coach: coachOf(truth, seed + 7 * CHECKPOINTS.indexOf(checkpoint), 'face-on', checkpoint) };
  });
  const corrections: Correction[] = [];
  let errors: readonly LearntError[] = [];
  for (let number = 0; number < Math.max(...Object.values(counts)); number += 1) {
    for (const { checkpoint, coach } of coaches)
      if (number < (counts[checkpoint] ?? 0)) corrections.push(...coach.corrections(coach.lesson('right', errors)));
    if (number % 10 === 7) errors = learnErrors(corrections);
  }
  return { coaches, corrections, errors: learnErrors(corrections) };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('errors of proposed points at each place in the swing', () => {
  test('hold 93 to 97 of 100 at each checkpoint, where those of all together do not', () => {
    const runs = Array.from({ length: DRAWS }, (_, run) => {
      const { coaches, errors } = coachedAt({ address: 40, top: 40, impact: 40 }, SEED + 100 * run);
      const [error] = errors;
      if (error === undefined || error.learnt === null) throw new Error('nothing was learnt');
      const together = [{ ...error, at: SWING_PLACES.map((place) => ({ ...error, place })) }];
      return coaches.map(({ coach }) => {
        const fresh = (of: readonly LearntError[]) =>
          Array.from({ length: 30 }, () => coach.lesson('right', of)).flat();
        return { own: held(fresh(errors)), together: held(fresh(together)) };
      });
    });
    const of = NAMED.map((_, at) => ({
      own: 100 * mean(runs.map((run) => run[at]?.own ?? NaN)),
      together: 100 * mean(runs.map((run) => run[at]?.together ?? NaN)),
    }));
    for (const [at, { own, together }] of of.entries())
      console.log(`${NAMED[at] ?? ''}: held ${own.toFixed(1)} %, by all together ${together.toFixed(1)} %`);
    for (const { own } of of) within(own, 95, 2);
    expect(Math.max(...of.map(({ together }) => together))).toBeGreaterThan(98);
    expect(Math.min(...of.map(({ together }) => together))).toBeLessThan(92);
  });

  test('have their own offset once it surely differs; till then that of all, and elsewhere always', () => {
    const { errors } = coachedAt({ address: 40, top: 40, impact: 40 }, SEED);
    const [error] = errors;
    const [address, top, impact] = NAMED.map((checkpoint) => toldAt(error as LearntError, swingPlaceOf(checkpoint)));
    within(top?.offset.x ?? NaN, 30, 5);
    within(top?.offset.y ?? NaN, -20, 5);
    within(impact?.offset.x ?? NaN, -25, 4);
    within(address?.offset.x ?? NaN, 0, 3);
    expect(toldAt(error as LearntError, 'finish')).toEqual(toldByAll(error as LearntError));
    const seen = { x: 500, y: 400, guess: ASSUMED };
    const on = { view: 'face-on', handedness: 'left', size: SIZE, at: '2026-12-01T12:00:00.000Z' } as const;
    const shown = NAMED.map((checkpoint) => showLearnt('lead-hip', seen, { ...on, checkpoint }, errors));
    within(shown[1]?.x ?? NaN, 500 - (30 * SIZE) / 1000, 4);
    within(shown[2]?.x ?? NaN, 500 + (25 * SIZE) / 1000, 3);
    expect(shown.map(({ proposed }) => proposed.learnt)).toEqual(error?.at.map(({ corrections }) => corrections));
  });

  test('have a large offset at full length after ten lessons, as smaller errors are corrected elsewhere', () => {
    const offs = Array.from({ length: 20 }, (_, run) => {
      const steady = { ...BASE, lesson: 0.25, frame: 0.25 };
      const coaches = [
        coachOf(steady, SEED + run, 'face-on', 'address'),
        coachOf({ ...steady, offset: { x: 50, y: -30 } }, SEED + 50 + run, 'face-on', 'top'),
      ];
      const lessons = Array.from({ length: 10 }, () =>
        coaches.map((coach) => coach.corrections(coach.lesson('right', []))),
      );
      const [error] = learnErrors(lessons.flat(2));
      return toldAt(error as LearntError, 'top')?.offset ?? { x: NaN, y: NaN };
    });
    // By chance 0.5; a little is lost, as what lies within four pixels might have been let pass. From the larger ones alone it is 43.
    within(mean(offs.map(({ x }) => x)), 50, 2.5);
    // It is not yet sure for one or two of them, who keep what all of the swing says.
    within(mean(offs.map(({ y }) => y)), -30, 5);
  });

  test('with few lessons are what all the point’s corrections say, told the wider the fewer they are', () => {
    const told = [0, 5, 12, 60].map((count) => {
      const { errors } = coachedAt({ top: 60, address: count }, SEED + 3);
      const [error] = errors;
      if (error === undefined || error.learnt === null) throw new Error('nothing was learnt');
      return { own: toldAt(error, 'address'), rest: toldByAll(error), pooled: error.learnt };
    });
    const [none, few, some, many] = told;
    expect(none?.own).toEqual(none?.rest);
    // Student's t of four degrees of freedom: 2.776.
    within((none?.own?.ratio ?? NaN) / (none?.pooled.ratio ?? NaN), 2.7764 / 1.96, 1e-4);
    // Four and two for each of five lessons: 2.145.
    within((few?.own?.ratio ?? NaN) / (few?.pooled.ratio ?? NaN), 2.1448 / 1.96, 1e-4);
    expect(some?.own?.ratio).toBeLessThan(few?.own?.ratio ?? NaN);
    expect(many?.own?.ratio).toBeLessThan(some?.own?.ratio ?? NaN);
    within(many?.own?.ratio ?? NaN, Math.hypot(0.3, 0.3), 0.12);
  });

  test('of a point that was corrected at one place alone are the same there, and do not count twice', () => {
    const { errors } = coachedAt({ top: 20 }, SEED);
    const [error] = errors;
    if (error === undefined || error.learnt === null) throw new Error('nothing was learnt');
    expect(error.at).toEqual([{ place: 'top', ...error, point: undefined, view: undefined, at: undefined }]);
    expect(toldAt(error, 'top')?.ratio).toBe(ratioToTell(error.learnt));
  });

  test('are listed a view after the other, points in the order of a guided run', () => {
    const [some] = coachedAt({ top: 3 }, SEED).corrections;
    if (some === undefined) throw new Error('nothing was corrected');
    const of = [
      { ...some, point: 'trail-knee' },
      { ...some, point: 'head-centre' },
      { ...some, point: 'trail-knee', view: 'down-the-line' },
    ] as const;
    expect(inListOrder(learnErrors(of)).map(({ view, point }) => `${view} ${point}`)).toEqual([
      'down-the-line trail-knee',
      'face-on head-centre',
      'face-on trail-knee',
    ]);
  });

  test('are listed: those of their own in the order of a swing, then what counts elsewhere', () => {
    const { errors, corrections } = coachedAt({ top: 60, address: 4, impact: 60 }, SEED);
    const [error] = errors;
    if (error === undefined) throw new Error('nothing was learnt');
    const rows = learntInWords(error, corrections);
    expect(rows.map(({ where }) => where)).toEqual(['Top, lead arm level', 'Impact', 'Elsewhere']);
    expect(rows[0]?.from).toMatch(/^\d+ corrections in \d+ lessons$/);
    expect(rows[0]?.offset).toMatch(/^2\d px toward the target, 1\d px up$/);
    expect(rows[1]?.offset).toMatch(/^1\d px away from the target$/);
    const few = corrections.slice(0, 2);
    const [early] = learnErrors(few);
    if (early === undefined) throw new Error('nothing was corrected');
    expect(learntInWords(early, few)).toEqual([
      { where: 'Where you corrected it', off: '13 px', from: 'assumed; corrected in 1 lesson', offset: '' },
    ]);
  });
});

test('each checkpoint has its place; with the lead arm level it is that of the top, and without a name its own', () => {
  expect(new Set([...CHECKPOINTS, null].map(swingPlaceOf))).toEqual(new Set(SWING_PLACES));
  expect(['lead-arm-level', 'lead-arm-level-down', 'top'].map((each) => swingPlaceOf(each as Checkpoint))).toEqual([
    'top',
    'top',
    'top',
  ]);
  expect(swingPlaceOf(null)).toBe('other');
});
