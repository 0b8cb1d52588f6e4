import { describe, expect, test } from 'vitest';
import { pairSwings, type SwingPlace } from '../../../core/time/pair-swings.ts';

const place = (swingId: string, endsAt: number | null): SwingPlace => ({ swingId, label: swingId, endsAt });
const ids = (places: readonly SwingPlace[], here: readonly number[]) =>
  pairSwings(places, here).map(({ swingId }) => swingId);

describe('swings of two cameras', () => {
  const there = [place('a', 12), place('b', 31), place('c', 75), place('d', 92)];

  test('are paired by the one difference of their clocks, whatever it is', () => {
    for (const late of [-10, 0, 340.2])
      expect(
        pairSwings(
          there,
          [12, 31, 75, 92].map((seconds) => seconds + late),
        ),
      ).toEqual(['a', 'b', 'c', 'd'].map((swingId) => ({ swingId, sure: true })));
  });

  test('also where cuts end a little earlier or later, and where one camera has a swing that the other has not', () => {
    expect(ids(there, [112.9, 130.2, 176, 192.5])).toEqual(['a', 'b', 'c', 'd']);
    expect(ids(there, [12, 50, 75, 92])).toEqual(['a', null, 'c', 'd']);
    expect(ids(there, [31, 75, 92])).toEqual(['b', 'c', 'd']);
  });

  test('are taken in order, unsure, where times do not tell', () => {
    const evenly = [place('a', 10), place('b', 30), place('c', 50)];
    expect(pairSwings(evenly, [10, 30])).toEqual([
      { swingId: 'a', sure: false },
      { swingId: 'b', sure: false },
    ]);
    expect(ids([place('a', null)], [3, 9])).toEqual(['a', null]);
    expect(pairSwings([], [3])).toEqual([{ swingId: null, sure: false }]);
    expect(pairSwings(there, [5]).map(({ sure }) => sure)).toEqual([false]);
    expect(pairSwings(there, [])).toEqual([]);
  });

  test('never share a place', () => {
    const close = [place('a', 10), place('b', 11), place('c', 60)];
    for (const here of [
      [10, 60],
      [10, 11, 60],
      [10.5, 60, 61],
    ]) {
      const given = ids(close, here).filter((id) => id !== null);
      expect(new Set(given).size).toBe(given.length);
    }
  });
});
