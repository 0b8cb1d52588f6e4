import { expect, it } from 'vitest';
import { parseRatio, ratio, ratioText, sameRatio, ticksToSeconds } from '../../../core/time/rational.ts';

it('is kept in lowest terms with the sign above', () => {
  expect(ratio(60000, 2002)).toEqual({ num: 30000, den: 1001 });
  expect(ratio(4, -6)).toEqual({ num: -2, den: 3 });
  expect(ratio(0, -7)).toEqual({ num: 0, den: 1 });
});

it('refuses what is no ratio of whole numbers', () => {
  for (const [num, den] of [
    [1, 0],
    [0.5, 1],
    [1, Number.NaN],
    [2 ** 53, 1],
  ] as const)
    expect(() => ratio(num, den)).toThrow('whole numbers');
});

it('is read back from its text', () => {
  expect(parseRatio(ratioText({ num: 30000, den: 1001 }))).toEqual({ num: 30000, den: 1001 });
  expect(parseRatio('2:1')).toEqual({ num: 2, den: 1 });
  for (const text of ['', '1', '1/0', 'a/b', '1/-2', '1.5/2']) expect(parseRatio(text)).toBeNull();
});

it('compares without rounding', () => {
  expect(sameRatio({ num: 1, den: 3 }, { num: 3_000_000_000_000, den: 9_000_000_000_000 })).toBe(true);
  expect(sameRatio({ num: 30000, den: 1001 }, { num: 2997, den: 100 })).toBe(false);
});

it('gives seconds with the sign of the time stamp', () => {
  expect(ticksToSeconds(-45000, { num: 1, den: 90000 })).toBe(-0.5);
});
