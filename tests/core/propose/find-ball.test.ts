import { describe, expect, test } from 'vitest';
import { findStruckBall } from '../../../core/propose/find-ball.ts';
import type { LumaClip } from '../../../core/propose/luma.ts';
import { motionBetween, smoothed } from '../../../core/propose/motion.ts';

const SIZE = { width: 120, height: 100 };
const GRASS = 90;

/** 40 frames of grass; `draw` says what is brighter, by frame. */
function clipOf(draw: (frame: number, x: number, y: number) => number): LumaClip {
  const pictures = Array.from({ length: 40 }, (_, frame) =>
    Uint8Array.from({ length: SIZE.width * SIZE.height }, (__, at) =>
      Math.min(255, GRASS + draw(frame, at % SIZE.width, Math.floor(at / SIZE.width))),
    ),
  );
  return { ...SIZE, from: 0, to: 40, at: (frame) => pictures[frame] ?? new Uint8Array(SIZE.width * SIZE.height) };
}

const square = (x: number, y: number, left: number, top: number, side: number, bright: number): number =>
  x >= left && x < left + side && y >= top && y < top + side ? bright : 0;

describe('the ball', () => {
  test('is gone after the last frame that shows it at rest', () => {
    const found = findStruckBall(
      clipOf((frame, x, y) => (frame <= 21 ? square(x, y, 30, 70, 3, 120) : 0)),
      10,
      35,
    );
    expect(found).toMatchObject({ frame: 21, agree: 1, x: 30, y: 70 });
  });

  test('may be covered by the club for a frame', () => {
    const found = findStruckBall(
      clipOf((frame, x, y) => (frame <= 21 && frame !== 20 ? square(x, y, 30, 70, 3, 120) : 0)),
      10,
      35,
    );
    expect(found?.frame).toBe(21);
  });

  test.each([
    ['that stays', (_: number, x: number, y: number) => square(x, y, 30, 70, 3, 120)],
    ['in the sky', (frame: number, x: number, y: number) => (frame <= 21 ? square(x, y, 30, 3, 3, 120) : 0)],
    ['as large as a shoe', (frame: number, x: number, y: number) => (frame <= 21 ? square(x, y, 30, 66, 12, 120) : 0)],
    ['that fades', (frame: number, x: number, y: number) => square(x, y, 30, 70, 3, Math.max(0, 120 - 4 * frame))],
    [
      'that is a long line',
      (frame: number, x: number, y: number) => (frame <= 21 && y === 70 && x > 10 && x < 50 ? 90 : 0),
    ],
  ] as const)('is nothing %s', (_, draw) => {
    expect(findStruckBall(clipOf(draw), 10, 35)).toBeNull();
  });
});

test('motion counts what changes beyond noise; pictures of two sizes are a mistake', () => {
  const [dark, noisy, bright] = [100, 108, 152].map((value) => new Uint8Array(10).fill(value));
  if (dark === undefined || noisy === undefined || bright === undefined) throw new Error('no pictures');
  expect(motionBetween(dark, noisy)).toBe(0);
  expect(motionBetween(dark, bright)).toBe(40);
  expect(motionBetween(bright, dark)).toBe(40);
  expect(() => motionBetween(dark, new Uint8Array(4))).toThrow(/one size/);
  expect(smoothed([0, 3, 0])).toEqual([1.5, 1, 1.5]);
});
