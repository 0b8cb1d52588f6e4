import { describe, expect, it } from 'vitest';
import { differenceOfMeans, lessonReading, oddSwings, pooledScatter } from '../../../core/compare/mean-of-swings.ts';
import { coverageFactor, studentPart } from '../../../core/measure/uncertainty/freedom.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import type { MeasuredReading } from '../../../core/model/reading.ts';
import { within } from '../../support/within.ts';

function reading(value: number, shared: MeasuredReading['shared'] = []): MeasuredReading {
  return {
    ...{ id: 'back-incline', aspect: 'value', view: 'down-the-line', checkpoint: 'top', state: 'measured' },
    ...{ value, unit: 'deg', u: 1, interval: [value - 1.96, value + 1.96], coverage: 1.96, budget: [], shared },
    ...{ method: 'first-order', from: [], shapes: [], notes: [] },
  };
}

const lesson = (values: readonly number[], shared: MeasuredReading['shared'] = []) =>
  lessonReading(values.map((value) => reading(value, shared)));

describe('the difference of two lessons with several swings', () => {
  const [a, b] = [lesson([4, 7, 8, 6, 3, 2]), lesson([6, 8, 7, 10, 11, 9])];

  it('is that of the means, with the pooled scatter; two one-sided tests give the p of a published example', () => {
    const found = differenceOfMeans(a, b);
    if (found === null) throw new Error('there is scatter');
    within(found.difference, 3.5, 1e-12);
    within(found.u, Math.sqrt(4.55 / 3), 1e-12);
    within(found.coverage, coverageFactor(10), 1e-12);
    // Documentation of the statistics package pingouin, tost(a, b) with a bound of 1: 10 degrees of freedom, p = 0.965097.
    within(studentPart((found.difference - 1) / found.u, 10), 0.965097, 5e-7);
  });

  it('is not told by one swing each, and by one against three with two degrees of freedom', () => {
    expect(differenceOfMeans(lesson([4]), lesson([6]))).toBeNull();
    within(differenceOfMeans(lesson([4]), lesson([5, 6, 7]))?.coverage ?? 0, coverageFactor(2), 1e-9);
    expect(pooledScatter([lesson([4]), lesson([5, 6, 7])])).toEqual({ s: 1, freedom: 2 });
  });

  it('holds what all swings of a lesson have in common, but not what both lessons have alike', () => {
    const camera = [{ name: 'camera yaw', by: 'day', part: 2 }] as const;
    const taken = [{ name: 'tailbone is taken, x', by: 'player', part: 2 }] as const;
    const plain = differenceOfMeans(lesson([4, 6]), lesson([5, 7]))?.u ?? 0;
    within(differenceOfMeans(lesson([4, 6], camera), lesson([5, 7], camera))?.u ?? 0, Math.hypot(plain, 2, 2), 1e-12);
    within(differenceOfMeans(lesson([4, 6], taken), lesson([5, 7], taken))?.u ?? 0, plain, 1e-12);
  });

  it('holds what one coach always does with one player as it is on the mean: each swing’s marks give it slopes of their own', () => {
    const swings = (values: readonly number[], parts: readonly number[]) =>
      lessonReading(
        values.map((value, i) => reading(value, [{ name: 'taken', by: 'player', part: parts[i] ?? Number.NaN }])),
      );
    const plain = differenceOfMeans(lesson([4, 6, 5]), lesson([5, 7, 6]))?.u ?? 0;
    const unlike = (then: readonly number[], now: readonly number[]) =>
      differenceOfMeans(swings([4, 6, 5], then), swings([5, 7, 6], now))?.u ?? 0;
    within(unlike([1, 3, 2], [2.5, 1.5, 2]), plain, 1e-12);
    // An error that turns a mean by 2 then and by -1 now turns their difference by 3.
    within(unlike([1, 3, 2], [-1, -2, 0]), Math.hypot(plain, 3), 1e-12);
  });

  it('holds an error of marks where they were copied from swing to swing; marks that are clicked anew scatter with their swings', () => {
    const swings = (values: readonly number[], names: readonly string[]) =>
      lessonReading(values.map((value, i) => reading(value, [{ name: names[i] ?? '', by: 'marks', part: 0.8 }])));
    const now = lesson([5, 7, 6]);
    const plain = differenceOfMeans(lesson([4, 6, 5]), now)?.u ?? 0;
    const u = (...names: readonly string[]) => differenceOfMeans(swings([4, 6, 5], names), now)?.u ?? 0;
    within(u('a', 'b', 'c'), plain, 1e-12);
    within(u('a', 'a', 'a'), Math.hypot(plain, 0.8), 1e-12);
    // Two of three swings have it alike: what it makes of their mean.
    within(u('a', 'a', 'c'), Math.hypot(plain, (2 / 3) * 0.8), 1e-12);
    within(swings([4], ['a']).common, 0, 1e-12);
  });

  it('lies in its interval 95 times of 100 where nothing changed, cameras set up anew', () => {
    const numbers = seeded(5);
    const trials = 4000;
    let held = 0;
    for (let trial = 0; trial < trials; trial += 1) {
      const day = () => {
        const off = 1.5 * numbers.normal();
        return lesson(
          [0, 0, 0].map(() => off + 2 * numbers.normal()),
          [{ name: 'camera', by: 'day', part: 1.5 }],
        );
      };
      const found = differenceOfMeans(day(), day());
      if (found !== null && Math.abs(found.difference) <= found.coverage * found.u) held += 1;
    }
    expect(held / trials).toBeGreaterThan(0.95 - 4 * Math.sqrt((0.95 * 0.05) / trials));
    expect(held / trials).toBeLessThan(0.975);
  });
});

describe('an odd swing', () => {
  it('lies far off the others of its lesson; with fewer than four nobody can say which', () => {
    expect(oddSwings([10, 10.5, 9.5, 10.2, 40])).toEqual([4]);
    expect(oddSwings([10, 10.5, 9.5, 10.2, 10.1])).toEqual([]);
    expect(oddSwings([10, 10.1, 40])).toEqual([]);
  });
});
