import { describe, expect, test } from 'vitest';
import { learnErrors, ratioToTell } from '../../../../core/measure/proposed/learn-errors.ts';
import { showLearnt } from '../../../../core/measure/proposed/show-learnt.ts';
import type { Handedness } from '../../../../core/model/words.ts';
import { sized } from '../../../support/sized.ts';
import { within } from '../../../support/within.ts';
import { ASSUMED, coached, coachOf, held, SIZE, type Truth } from './coach.ts';

const SEED = 17_12_01;
const DRAWS = sized(24, 200);
const TRUE = { offset: { x: 0, y: 0 }, lesson: 0.7, frame: 0.7, lets: 10, unseen: 0 };
const sdOf = ({ lesson, frame }: Truth): number => Math.hypot(lesson, frame);
const HANDS: readonly Handedness[] = ['right', 'left'];

/** Over many coaches: the part of points accepted unseen that their ± holds, and what was learnt on average. */
function trial(truth: Truth, lessons: number) {
  const runs = Array.from({ length: DRAWS }, (_, run) => {
    const { coach, errors } = coached(truth, lessons, SEED + run, HANDS);
    const fresh = Array.from({ length: 30 }, (_, number) => coach.lesson(HANDS[number % 2] ?? 'right', errors)).flat();
    return { held: held(fresh), learnt: errors[0]?.learnt ?? null };
  });
  const learnt = runs.flatMap((run) => run.learnt ?? []);
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    held: 100 * mean(runs.map((run) => run.held)),
    learnt: learnt.length / DRAWS,
    ratio: mean(learnt.map(({ ratio }) => ratio)),
    offset: { x: mean(learnt.map(({ offset }) => offset.x)), y: mean(learnt.map(({ offset }) => offset.y)) },
  };
}

describe('errors of proposed points, learnt from what a drawn coach corrects', () => {
  const worlds: readonly (readonly [string, Truth])[] = [
    ['as assumed', TRUE],
    ['half as large again', { ...TRUE, lesson: 1.1, frame: 1.1, lets: 6 }],
    ['half as large, every pixel corrected', { ...TRUE, lesson: 0.5, frame: 0.4, lets: 1 }],
    ['of a coach who lets most pass', { ...TRUE, lets: 15, unseen: 0.3 }],
    ['with an offset, in part unseen', { ...TRUE, offset: { x: -36, y: 15 }, lesson: 0.6, frame: 0.6, unseen: 0.2 }],
  ];
  test.each(worlds)('%s: the ± of accepted points holds 93 to 97 of 100 after 60 lessons', (name, truth) => {
    const found = trial(truth, 60);
    console.log(
      `${name}: held ${found.held.toFixed(1)} %, ratio ${found.ratio.toFixed(2)} of ${sdOf(truth).toFixed(2)}`,
    );
    expect(found.learnt).toBe(1);
    within(found.held, 95, 2);
    within(found.ratio / sdOf(truth), 1, 0.12);
    within(found.offset.x, truth.offset.x, 2.5);
    within(found.offset.y, truth.offset.y, 2.5);
  });

  test('after few lessons they lie between what is assumed and what is true, and hold enough', () => {
    const [small, large] = [0.4, 1.1].map((part) => ({ ...TRUE, lesson: part, frame: part, lets: 4 }));
    if (small === undefined || large === undefined) throw new Error('two worlds');
    const [few, more] = [trial(small, 10), trial(large, 10)];
    expect(few.ratio).toBeGreaterThan(sdOf(small));
    expect(few.ratio).toBeLessThan(1);
    expect(more.ratio).toBeGreaterThan(1);
    expect(few.held).toBeGreaterThan(95);
    within(more.held, 95, 3);
  });

  test('of fewer than six lessons nothing is learnt, however often a point was corrected there', () => {
    const { corrections } = coached({ ...TRUE, lets: 0 }, 5, SEED);
    expect(learnErrors(corrections)).toMatchObject([{ lessons: 5, corrections: 15, learnt: null }]);
    const one = corrections.flatMap((each) => Array.from({ length: 9 }, () => each));
    expect(learnErrors(one)[0]?.learnt).toBeNull();
    expect(learnErrors([])).toEqual([]);
  });

  test('one wild correction changes little', () => {
    const { corrections } = coached(TRUE, 20, SEED);
    const [first] = corrections;
    if (first === undefined) throw new Error('nothing was corrected');
    const { x, y } = first.placed;
    const wild = { ...first, placed: { x: x + 40 * ASSUMED, y: y - 40 * ASSUMED } };
    const [plain, with1] = [corrections, [wild, ...corrections.slice(1)]].map((all) => learnErrors(all)[0]?.learnt);
    within((with1?.ratio ?? NaN) / (plain?.ratio ?? NaN), 1, 0.12);
    expect(with1?.offset).toEqual({ x: 0, y: 0 });
  });

  test('an offset turns round with the hand, and each view has its own', () => {
    const truth = { ...TRUE, offset: { x: 30, y: 0 }, lesson: 0.4, frame: 0.4 };
    const [both, left] = [coached(truth, 24, SEED, HANDS), coached(truth, 24, SEED, ['left'])];
    const [one, other] = [both, left].map(({ errors }) => errors[0]?.learnt?.offset.x ?? NaN);
    within(one ?? NaN, 30, 4);
    within(other ?? NaN, 30, 4);
    const seen = { x: 500, y: 500, guess: ASSUMED };
    const on = { view: 'face-on', checkpoint: 'top', size: SIZE, at: '2026-11-30T12:00:00.000Z' } as const;
    const shown = HANDS.map((handedness) => showLearnt('lead-hip', seen, { ...on, handedness }, both.errors).x);
    within(shown[0] ?? NaN, 500 + (30 * SIZE) / 1000, 3);
    within((shown[0] ?? NaN) + (shown[1] ?? NaN), 1000, 1e-9);
    const away = showLearnt('lead-hip', seen, { ...on, view: 'down-the-line', handedness: 'right' }, both.errors);
    expect(away).toMatchObject({ ...seen, proposed: { model: { x: 500, y: 500 }, assumed: ASSUMED } });
    expect(away.proposed.learnt).toBeUndefined();
    // The other way round down the line: neither learns from the other.
    const mirrored = coachOf({ ...truth, offset: { x: -30, y: 0 } }, SEED, 'down-the-line');
    const down = Array.from({ length: 24 }, () => mirrored.corrections(mirrored.lesson('right', []))).flat();
    const errors = learnErrors([...both.corrections, ...down]);
    expect(errors.map(({ view, learnt }) => [view, Math.sign(learnt?.offset.x ?? 0)])).toEqual([
      ['face-on', 1],
      ['down-the-line', -1],
    ]);
  });

  test('no offset is taken out where there is none: of 100 coaches few have one', () => {
    const found = Array.from(
      { length: 100 },
      (_, run) => coached(TRUE, 16, SEED + 1000 + run, HANDS).errors[0]?.learnt,
    );
    const off = found.filter((learnt) => learnt?.offset.x !== 0 || learnt.offset.y !== 0);
    expect(found.every((learnt) => learnt !== undefined && learnt !== null)).toBe(true);
    // Two coordinates at one in a hundred each: more than eight of 100 come by chance once in 5,000 times.
    expect(off.length).toBeLessThanOrEqual(8);
  });

  test('what is told is wider while it rests on little', () => {
    expect(ratioToTell({ ratio: 1, freedom: 16 })).toBeCloseTo(2.1199 / 1.96, 4);
  });
});
