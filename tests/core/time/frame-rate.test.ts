import { describe, expect, it } from 'vitest';
import { frameRate } from '../../../core/time/frame-rate.ts';

const steady = (count: number, ticks: (place: number) => number): number[] =>
  Array.from({ length: count }, (_, place) => ticks(place));

describe('the rate of a steady clip', () => {
  it('is exact where the time base holds it', () => {
    const result = frameRate(
      steady(300, (i) => i * 1001),
      { num: 1, den: 30000 },
    );
    expect(result).toEqual({ variable: false, nominalRate: { num: 30000, den: 1001 } });
  });

  it.each([
    ['24000/1001', 24000, 1001],
    ['25', 25, 1],
    ['30000/1001', 30000, 1001],
    ['30', 30, 1],
    ['60000/1001', 60000, 1001],
    ['120', 120, 1],
    ['240', 240, 1],
  ])('of %s is found again behind the millisecond of Matroska', (_, num, den) => {
    const times = steady(400, (i) => Math.round((i * 1000 * den) / num));
    expect(frameRate(times, { num: 1, den: 1000 })).toEqual({ variable: false, nominalRate: { num, den } });
  });

  it('may be unusual', () => {
    expect(
      frameRate(
        steady(50, (i) => i * 400),
        { num: 1, den: 11988 },
      ),
    ).toEqual({ variable: false, nominalRate: { num: 2997, den: 100 } });
  });

  it('does not depend on when the clip begins', () => {
    const times = steady(90, (i) => 132_000 + i * 3000);
    expect(frameRate(times, { num: 1, den: 90000 }).nominalRate).toEqual({ num: 30, den: 1 });
  });
});

describe('an uneven clip', () => {
  it('has the average rate', () => {
    expect(frameRate([0, 10, 30, 40], { num: 1, den: 100 })).toEqual({
      variable: true,
      nominalRate: { num: 15, den: 2 },
    });
  });

  it('is uneven from two ticks of difference on, since rounding makes one', () => {
    expect(frameRate([0, 33, 67], { num: 1, den: 1000 }).variable).toBe(false);
    expect(frameRate([0, 33, 68], { num: 1, den: 1000 }).variable).toBe(true);
  });
});

it('is unknown with fewer than two frames', () => {
  expect(frameRate([], { num: 1, den: 25 })).toEqual({ variable: false, nominalRate: null });
  expect(frameRate([7], { num: 1, den: 25 })).toEqual({ variable: false, nominalRate: null });
});
