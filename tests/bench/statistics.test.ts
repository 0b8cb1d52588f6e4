import { describe, expect, test } from 'vitest';
import { within } from '../support/within.ts';
import { describeRun, median, percentile, ratio } from './statistics.ts';

describe('percentile', () => {
  test('is a value of the list, by nearest rank', () => {
    const twenty = Array.from({ length: 20 }, (_, place) => place + 1);
    expect([0, 0.05, 0.5, 0.95, 1].map((share) => percentile(twenty, share))).toEqual([1, 1, 10, 19, 20]);
    expect(percentile([7], 0.95)).toBe(7);
  });
  test('does not mind the order, and leaves it alone', () => {
    const values = [30, 10, 20];
    expect(percentile(values, 0.5)).toBe(20);
    expect(values).toEqual([30, 10, 20]);
  });
  test('one picture in ten that never came makes the 95th endless, one in thirty does not', () => {
    expect(percentile([...Array.from({ length: 9 }, () => 1), Infinity], 0.95)).toBe(Infinity);
    expect(percentile([...Array.from({ length: 29 }, () => 1), Infinity], 0.95)).toBe(1);
  });
  test('of nothing there is none; a share beyond 1 and a NaN are mistakes', () => {
    expect(percentile([], 0.95)).toBeNull();
    expect(() => percentile([1], 95)).toThrow('share');
    expect(() => percentile([1, NaN], 0.5)).toThrow('numbers');
  });
});

test('median: the middle one, or the mean of the two in the middle', () => {
  expect([median([]), median([5]), median([9, 1, 5]), median([1, 10, 3, 5])]).toEqual([null, 5, 5, 4]);
});

test('ratio: none without both numbers, none to nothing', () => {
  expect([ratio(6, 3), ratio(null, 3), ratio(6, null), ratio(6, 0)]).toEqual([2, null, null, null]);
});

describe('a run of pictures', () => {
  const run = (indexes: readonly number[], every = 40): { index: number; at: number }[] =>
    indexes.map((index, place) => ({ index, at: 1000 + place * every }));

  test('pictures a second are those between the first and the last', () => {
    const found = describeRun(run([5, 6, 7, 8, 9, 10]), 1);
    within(found.rate ?? 0, 25, 1e-9);
    expect(found).toMatchObject({ skipped: 0, disordered: 0 });
  });
  test('backward is a direction, not a disorder', () => {
    expect(describeRun(run([9, 8, 7]), -1)).toMatchObject({ skipped: 0, disordered: 0 });
    expect(describeRun(run([9, 8, 7]), 1)).toMatchObject({ skipped: 0, disordered: 2 });
  });
  test('frames passed over are counted, a sharp repaint of the same frame is no picture', () => {
    expect(describeRun(run([1, 2, 2, 5]), 1)).toEqual({ rate: (2 * 1000) / 120, skipped: 2, disordered: 0 });
  });
  test('none or one picture has no rate', () => {
    expect(describeRun([], 1)).toEqual({ rate: null, skipped: 0, disordered: 0 });
    expect(describeRun(run([4]), 1).rate).toBeNull();
  });
});
