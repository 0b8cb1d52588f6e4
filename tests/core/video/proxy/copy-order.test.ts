import { describe, expect, it } from 'vitest';
import { CopyOrder, NOTHING_LOOKED_AT, partStarts, wantedParts } from '../../../../core/video/proxy/copy-order.ts';
import type { LookedAt } from '../../../../core/video/proxy/copy-order.ts';
import { seeded } from '../../../support/seeded.ts';

const STARTS = [0, 100, 200, 300, 400, 500];
const COUNT = 600;
const at = (pointer: number | null, ...named: number[]): LookedAt => ({ pointer, named });

function keysAt(count: number, keys: readonly number[]) {
  return { frames: Array.from({ length: count }, (_, place) => ({ pts: place, ticks: 1, key: keys.includes(place) })) };
}

describe('the parts of a clip', () => {
  it('begin at its key pictures, none shorter than what an ffmpeg costs, and only where its format lists them', () => {
    const index = keysAt(300, [0, 30, 60, 90, 120, 121, 200]);
    expect(partStarts(index, 'mov')).toEqual([0, 60, 120, 200]);
    expect(partStarts(index, 'matroska')).toEqual([0, 60, 120, 200]);
    expect(partStarts(index, 'mpegts')).toEqual([0]);
    expect(partStarts(keysAt(300, []), 'mov')).toEqual([0]);
    expect(partStarts(keysAt(300, [5]), 'mov')).toEqual([0]);
  });

  it('are wanted where the hand rests, then where frames have a name, between those, ahead, and behind', () => {
    expect(wantedParts(STARTS, COUNT, at(null))).toEqual([0, 1, 2, 3, 4, 5]);
    expect(wantedParts(STARTS, COUNT, at(250))).toEqual([2, 3, 4, 5, 0, 1]);
    expect(wantedParts(STARTS, COUNT, at(0, 420, 150))).toEqual([0, 1, 4, 2, 3, 5]);
    expect(wantedParts(STARTS, COUNT, at(399, 120, 450, 455))).toEqual([3, 4, 1, 2, 5, 0]);
    expect(wantedParts(STARTS, COUNT, at(null, 550, 320))).toEqual([3, 5, 4, 0, 1, 2]);
    // A frame that the clip does not have is nowhere.
    expect(wantedParts(STARTS, COUNT, at(599, 600, -1))).toEqual([5, 0, 1, 2, 3, 4]);
  });

  it('come each once, whatever is looked at', () => {
    const random = seeded(5);
    for (let round = 0; round < 200; round += 1) {
      const some = Array.from({ length: Math.floor(random() * 9) }, () => Math.floor(random() * COUNT));
      const looked = at(random() < 0.3 ? null : Math.floor(random() * COUNT), ...some);
      expect(wantedParts(STARTS, COUNT, looked).toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5]);
    }
  });
});

describe('the order of a copy', () => {
  /** Makes a copy picture by picture as passes would; which frame each pass begins at. */
  function made(looks: (done: number) => LookedAt, had: readonly number[] = []) {
    const has = new Set(had);
    const order = new CopyOrder(STARTS, COUNT, (frame) => has.has(frame));
    const begun: number[] = [];
    const all: number[] = [];
    for (let next = order.next(looks(0)); next !== null; next = order.next(looks(all.length))) {
      begun.push(next);
      for (let frame = next; frame < COUNT; frame += 1) {
        if (frame > next && (has.has(frame) || order.leaves(frame, looks(all.length)))) break;
        expect(has.has(frame)).toBe(false);
        has.add(frame);
        order.made(frame);
        all.push(frame);
      }
    }
    expect(has.size).toBe(COUNT);
    return { begun, all };
  }

  it('is one pass from the beginning where nothing is looked at', () => {
    expect(made(() => NOTHING_LOOKED_AT).begun).toEqual([0]);
  });

  it('goes on from part to part without a new pass, also where the next one is a little ahead', () => {
    const looked = at(250, 310);
    expect(made(() => looked).begun).toEqual([200, 0]);
    const far = at(0, 420);
    expect(made(() => far).begun).toEqual([0, 400, 100, 500]);
  });

  it('leaves a part for that in which the hand comes to rest, and comes back to where it was', () => {
    const [first, then] = [at(0), at(450)];
    const { begun, all } = made((done) => (done < 120 ? first : then));
    expect(begun).toEqual([0, 400, 120]);
    expect(all.slice(118, 122)).toEqual([118, 119, 400, 401]);
  });

  it('leaves no part halfway for a new name', () => {
    const [first, then] = [at(0), at(0, 450)];
    const { begun } = made((done) => (done < 120 ? first : then));
    expect(begun).toEqual([0, 400, 200, 500]);
  });

  it('makes what is missing of a copy and nothing else', () => {
    const had = [...Array(COUNT).keys()].filter((frame) => frame < 50 || (frame >= 230 && frame < 410));
    const looked = at(300);
    expect(made(() => looked, had).begun).toEqual([410, 50]);
  });

  it('ends whatever is looked at', () => {
    for (let seed = 1; seed <= 30; seed += 1) {
      const random = seeded(seed);
      const had = [...Array(COUNT).keys()].filter(() => random() < 0.3);
      let looked = at(0);
      made(() => {
        if (random() < 0.02) looked = at(Math.floor(random() * COUNT), Math.floor(random() * COUNT));
        return looked;
      }, had);
    }
  });
});
