import { expect, test } from 'vitest';
import { namingErrorsOf, namingSpreads, namingsInWords } from '../../../../core/measure/repeat/naming-spread.ts';
import { namingStart } from '../../../../core/measure/repeat/plan-check.ts';
import { seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import type { RepeatNaming } from '../../../../core/model/repeat-check.ts';
import { within } from '../../../support/within.ts';

const FRAME = 1 / 120;
const naming = (after: readonly number[], more: Partial<RepeatNaming> = {}): RepeatNaming => ({
  ...{ clipId: 'clip', checkpoint: 'top', frameSeconds: FRAME, after },
  ...more,
});

test('namings scatter about the mean of their own clip, by hand', () => {
  // 0, 2, 4 ms about 2: squares 8; 0, 6 ms about 3: squares 18. sqrt(26 / 3) ms with 2 + 1 degrees of freedom.
  const [spread] = namingSpreads([naming([0, 0.002, 0.004]), naming([0, 0.006], { clipId: 'other' })]);
  within(spread?.sd ?? 0, Math.sqrt(26 / 3) / 1000, 1e-12);
  expect(spread).toMatchObject({ checkpoint: 'top', freedom: 3 });
});

test('a measured spread is steadied by the assumed one, each by its degrees of freedom', () => {
  // Assumed for the top: 10 ms and half a frame of 1/120 s, worth 4 degrees of freedom. Measured: sd 2 ms, 2 degrees.
  const errors = namingErrorsOf([naming([0, 0.002, 0.004])]);
  within(errors?.known.top ?? 0, Math.sqrt((4 * (0.01 ** 2 + (0.5 / 120) ** 2) + 2 * 0.002 ** 2) / 6), 1e-12);
  expect(errors?.freedom).toEqual({ top: 6 });
  expect(errors?.known.impact).toBeUndefined();
  expect(namingErrorsOf([])).toBeNull();
  // Twice the same frame is no proof of a hand that never errs.
  expect(namingErrorsOf([naming([0, 0])])?.known.top).toBeGreaterThan(0.009);
});

test('with many namings the spread of the hand is found, whatever was assumed', () => {
  const numbers = seeded(7);
  for (const truth of [0.002, 0.02]) {
    const many = Array.from({ length: 2000 }, (_, i) => {
      const own = [0, 1, 2].map(() => truth * numbers.normal());
      return naming(
        own.map((each) => each - (own[0] ?? 0)),
        { clipId: String(i) },
      );
    });
    // 4,000 degrees of freedom: a standard deviation is known to 1.1 %.
    within(namingErrorsOf(many)?.known.top ?? 0, truth, 0.08 * truth);
  }
});

test('the words say how far apart namings fall, and of the same frame that it is the same', () => {
  expect(namingsInWords([naming([0, 0.008, 0.016, 0.008]), naming([0, 0], { checkpoint: 'impact' })])).toEqual([
    'Top: of 20 namings, 19 fall within about 13 ms of their middle, at 120 a second.',
    'Impact: the same frame each time, at 120 a second.',
  ]);
});

test('a showing begins beside the named frame, on either side and not always as far', () => {
  const numbers = seeded(3);
  const clip = { frameCount: 300, frameSeconds: FRAME };
  const starts = Array.from(
    { length: 200 },
    () => namingStart(150, clip, [numbers.uniform(), numbers.uniform()]) - 150,
  );
  // 60 to 180 ms at 120 a second.
  expect(starts.every((by) => Math.abs(by) >= 7 && Math.abs(by) <= 22)).toBe(true);
  expect(new Set(starts).size).toBeGreaterThan(20);
  within(starts.filter((by) => by < 0).length, 100, 35);
  expect(namingStart(1, { frameCount: 2, frameSeconds: 1 / 30 }, [0, 1])).toBe(0);
  expect(namingStart(1, { frameCount: 2, frameSeconds: 1 / 30 }, [0.9, 1])).toBe(1);
});
