import { expect, it } from 'vitest';
import { MADE_AHEAD } from '../../../../core/model/read-ahead.ts';
import { jumpRange, prepareRange, reachesSoon } from '../../../../core/video/decode/window-plan.ts';

const REACH = { ...MADE_AHEAD.proxy, handOnCost: 5 };
const { behind: BEHIND, backStretch: BACK_STRETCH, near: NEAR } = REACH;

it('makes a few frames before a jump and all after it', () => {
  expect(jumpRange(100, 30, 300, REACH)).toEqual({ from: 100 - BEHIND, to: 299 });
  expect(jumpRange(2, 0, 300, REACH)).toEqual({ from: 0, to: 299 });
  expect(jumpRange(0, 0, 1, REACH)).toEqual({ from: 0, to: 0 });
  // A key frame is had without the stretch before it, and so is the frame after it.
  expect(jumpRange(100, 100, 300, REACH)).toEqual({ from: 100, to: 299 });
  expect(jumpRange(101, 100, 300, REACH)).toEqual({ from: 100, to: 299 });
});

it('waits for a run only where it gets there sooner than a new one from the key frame', () => {
  const run = { next: 50, to: 200 };
  // From key 40, a new run decodes 22 frames for frame 62 and pays 20 for its start; the old one hands on 12 at 5 each.
  expect(reachesSoon(run, 49, 40, REACH)).toBe(false);
  expect(reachesSoon(run, 50, 40, REACH)).toBe(true);
  expect(reachesSoon(run, 57, 40, REACH)).toBe(true);
  expect(reachesSoon(run, 62, 40, REACH)).toBe(false);
  // The same step with the key far behind: what was decoded already is worth keeping.
  expect(reachesSoon({ next: 150, to: 300 }, 162, 0, REACH)).toBe(true);
  expect(reachesSoon({ next: 50, to: 60 }, 61, 0, REACH)).toBe(false);
});

it('prepares the side to which steps go', () => {
  const have = (frame: number): boolean => frame >= 90 && frame <= 110;
  expect(prepareRange(92, 93, 300, REACH, have)).toEqual({ from: 90 - BACK_STRETCH, to: 89 });
  expect(prepareRange(108, 107, 300, REACH, have)).toEqual({ from: 111, to: 299 });
  expect(prepareRange(108, null, 300, REACH, have)).toEqual({ from: 111, to: 299 });
});

it('prepares nothing while enough is there, nor beyond the ends', () => {
  const all = (): boolean => true;
  expect(prepareRange(50, 49, 300, REACH, all)).toBeNull();
  expect(prepareRange(299, 298, 300, REACH, (frame) => frame > 290)).toBeNull();
  expect(prepareRange(0, 1, 300, REACH, (frame) => frame < 10)).toBeNull();
  expect(prepareRange(50, 49, 300, REACH, (frame) => frame !== 51 + NEAR)).toBeNull();
});
