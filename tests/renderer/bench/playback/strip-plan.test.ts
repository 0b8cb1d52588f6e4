import { describe, expect, it } from 'vitest';
import { StripCells, coarseToFine, standIns, stripFrames } from '../../../../renderer/bench/playback/strip-plan.ts';
import { clipIndexOf } from '../../../support/clip-index.ts';

const clip = (frames: number, keys: readonly number[], more = {}) =>
  clipIndexOf([...Array(frames).keys()], 30, { keys, ...more });

describe('the strip', () => {
  it('shows the middle of each of its parts, and no frame that the clip does not have', () => {
    expect(stripFrames(100, 4)).toEqual([12, 37, 62, 87]);
    expect(stripFrames(2, 4)).toEqual([0, 0, 1, 1]);
    expect(stripFrames(1, 1)).toEqual([0]);
  });

  it('is stood in for by the nearest key pictures, each once, none of them damaged', () => {
    const keys = [0, 10, 20, 30, 40];
    expect([...standIns(clip(50, keys), [4, 6, 14, 26, 49])].sort((a, b) => a - b)).toEqual([0, 10, 30, 40]);
    // Of two as near the earlier.
    expect(standIns(clip(50, keys), [5])).toEqual([0]);
    expect(standIns(clip(50, keys, { damage: [{ from: 8, to: 12 }] }), [11])).toEqual([20]);
    expect(standIns(clip(50, []), [3, 30])).toEqual([]);
  });

  it('fills from coarse to fine: whatever has come is spread over the clip', () => {
    expect(coarseToFine([0, 1, 2, 3, 4, 5, 6])).toEqual([3, 1, 5, 0, 2, 4, 6]);
    expect(coarseToFine([])).toEqual([]);
    for (const count of [1, 2, 17, 40]) {
      const items = [...Array(count).keys()];
      const order = coarseToFine(items);
      expect([...order].sort((a, b) => a - b)).toEqual(items);
      // Of the first 2^n - 1 no two neighbours are farther apart than a 2^n-th of all, and one.
      for (let level = 1; 2 ** level - 1 <= count; level += 1) {
        const came = [-1, ...order.slice(0, 2 ** level - 1), count].sort((a, b) => a - b);
        const gaps = came.slice(1).map((at, i) => at - (came[i] ?? 0));
        expect(Math.max(...gaps)).toBeLessThanOrEqual(count / 2 ** level + 1);
      }
    }
  });

  it('has no empty cell once one picture came, and in each the nearest that came', () => {
    const frames = stripFrames(100, 10);
    const cells = new StripCells(frames);
    expect(cells.take(50)).toHaveLength(10);
    // Nearer to the first cells, farther from the others.
    expect(cells.take(0)).toEqual([0, 1]);
    expect(cells.take(0)).toEqual([]);
    expect([cells.exact, cells.isExact(2)]).toEqual([0, false]);
    expect(cells.take(25)).toEqual([1, 2, 3]);
    expect([cells.exact, cells.isExact(2)]).toEqual([1, true]);
    // What is exact stays.
    expect(cells.take(25)).toEqual([]);
    expect(cells.take(26)).not.toContain(2);
  });
});
