import { expect, it } from 'vitest';
import {
  AHEAD,
  BACK_STRETCH,
  BEHIND,
  NEAR,
  jumpRange,
  prepareRange,
  reachesSoon,
} from '../../../core/video/window-plan.ts';

it('makes a few frames before a jump and all after it', () => {
  expect(jumpRange(100, 300)).toEqual({ from: 100 - BEHIND, to: 299 });
  expect(jumpRange(2, 300)).toEqual({ from: 0, to: 299 });
  expect(jumpRange(0, 1)).toEqual({ from: 0, to: 0 });
});

it('waits for a run that is nearly there, not for one that is past or far off', () => {
  const run = { next: 50, to: 200 };
  expect([49, 50, 50 + AHEAD, 51 + AHEAD].map((frame) => reachesSoon(run, frame))).toEqual([false, true, true, false]);
  expect(reachesSoon({ next: 50, to: 60 }, 61)).toBe(false);
});

it('prepares the side to which steps go', () => {
  const have = (frame: number): boolean => frame >= 90 && frame <= 110;
  expect(prepareRange(92, 93, 300, have)).toEqual({ from: 90 - BACK_STRETCH, to: 89 });
  expect(prepareRange(108, 107, 300, have)).toEqual({ from: 111, to: 299 });
  expect(prepareRange(108, null, 300, have)).toEqual({ from: 111, to: 299 });
});

it('prepares nothing while enough is there, nor beyond the ends', () => {
  const all = (): boolean => true;
  expect(prepareRange(50, 49, 300, all)).toBeNull();
  expect(prepareRange(299, 298, 300, (frame) => frame > 290)).toBeNull();
  expect(prepareRange(0, 1, 300, (frame) => frame < 10)).toBeNull();
  expect(prepareRange(50, 49, 300, (frame) => frame !== 51 + NEAR)).toBeNull();
});
