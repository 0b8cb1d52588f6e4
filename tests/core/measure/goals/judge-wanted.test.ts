import { describe, expect, it, test } from 'vitest';
import { SHIPPED_GOALS } from '../../../../core/parse/shipped-goals.ts';
import { formatWanted } from '../../../../core/measure/words/format.ts';
import { judgeWanted, missSide } from '../../../../core/measure/goals/judge-wanted.ts';
import { wantedOf } from '../../../../core/measure/goals/goals.ts';
import type { Unit } from '../../../../core/model/reading.ts';

const degrees = (low: number, high: number) => ({ interval: [low, high] as const, unit: 'deg' as Unit });
const range = (from: number | null, to: number | null, unit: Unit = 'deg') => ({ from, to, unit });

describe('a reading against its goal', () => {
  const wanted = range(20, 30);

  it('is on target only with all of its interval, limits included', () => {
    expect(judgeWanted(degrees(22, 28), wanted)).toBe('on target');
    expect(judgeWanted(degrees(20, 30), wanted)).toBe('on target');
    expect(judgeWanted(degrees(20, 20), wanted)).toBe('on target');
    expect(judgeWanted(degrees(19.999_999, 30), wanted)).toBe('too close to call');
    expect(judgeWanted(degrees(20, 30.000_001), wanted)).toBe('too close to call');
  });

  it('is too low or too high only with all of its interval; one that touches a limit is not', () => {
    expect(judgeWanted(degrees(10, 19.999_999), wanted)).toBe('too low');
    expect(judgeWanted(degrees(30.000_001, 40), wanted)).toBe('too high');
    expect(judgeWanted(degrees(10, 20), wanted)).toBe('too close to call');
    expect(judgeWanted(degrees(30, 40), wanted)).toBe('too close to call');
    expect(judgeWanted(degrees(10, 40), wanted)).toBe('too close to call');
  });

  it('has one limit where the goals have one', () => {
    expect(judgeWanted(degrees(0, 9e9), range(0, null))).toBe('on target');
    expect(judgeWanted(degrees(-2, -1), range(0, null))).toBe('too low');
    expect(judgeWanted(degrees(-2, 1), range(0, null))).toBe('too close to call');
    expect(judgeWanted(degrees(-9e9, 0), range(null, 0))).toBe('on target');
    expect(judgeWanted(degrees(0.5, 1), range(null, 0))).toBe('too high');
  });

  it('can miss one wanted value but never be shown to have it, however small its ±', () => {
    const key = { id: 'shoulder-to-spine', aspect: 'value', view: 'down-the-line', checkpoint: 'top' } as const;
    const square = wantedOf(SHIPPED_GOALS, key, '7 iron');
    if (square === null) throw new Error('the goals want nothing of the shoulders');
    expect(judgeWanted(degrees(89.9, 90.1), square)).toBe('too close to call');
    expect(judgeWanted(degrees(91, 99), square)).toBe('too high');
    expect(judgeWanted(degrees(81, 89), square)).toBe('too low');
  });

  it('holds a limit of 0 in every unit, and any other in its own unit only', () => {
    const box = { interval: [-12, -4] as const, unit: '% head box' as Unit };
    expect(judgeWanted(box, range(null, 0, 'cm'))).toBe('on target');
    expect(judgeWanted(box, range(null, 2, 'cm'))).toBeNull();
    expect(judgeWanted(box, range(-2, 0, 'cm'))).toBeNull();
    expect(judgeWanted(box, range(-20, 0, '% head box'))).toBe('on target');
  });
});

test('a miss has a side only where all of the interval lies beyond that limit', () => {
  const wanted = range(20, 30);
  expect(missSide(degrees(10, 19.999_999), wanted)).toBe('low');
  expect(missSide(degrees(30.000_001, 40), wanted)).toBe('high');
  for (const interval of [degrees(10, 20), degrees(30, 40), degrees(10, 40), degrees(22, 28)])
    expect(missSide(interval, wanted)).toBeNull();
  expect(missSide(degrees(-2, -1), range(0, null))).toBe('low');
  expect(missSide(degrees(1, 2), range(null, 0))).toBe('high');
  expect(missSide(degrees(40, 50), range(null, 2, 'cm'))).toBeNull();
  expect(missSide(degrees(-9e9, 9e9), range(null, null))).toBeNull();
});

test('wanted ranges are written as the goals give them, without digits that they do not have', () => {
  expect(formatWanted(range(90, 90))).toBe('90°');
  expect(formatWanted(range(20, 25.5))).toBe('20° to 25.5°');
  expect(formatWanted(range(0, null))).toBe('0° or more');
  expect(formatWanted(range(null, 0, 'cm'))).toBe('0 or less');
  expect(formatWanted(range(-2.5, null, 'cm'))).toBe('−2.5 cm or more');
  expect(formatWanted(range(100, 100, 'ratio'))).toBe('100');
});
