import { expect, it } from 'vitest';
import { shownFrames } from '../../../core/time/shown-frames.ts';
import type { TimedPicture } from '../../../core/time/shown-frames.ts';

const picture = (pts: number | null, more: Partial<TimedPicture> = {}): TimedPicture => ({
  pts,
  duration: 10,
  key: false,
  hidden: false,
  ...more,
});

it('puts pictures in the order of presentation, whatever the order of decoding', () => {
  const { frames } = shownFrames([picture(0, { key: true }), picture(30), picture(10), picture(20)]);
  expect(frames).toEqual([
    { pts: 0, ticks: 10, key: true },
    { pts: 10, ticks: 10, key: false },
    { pts: 20, ticks: 10, key: false },
    { pts: 30, ticks: 10, key: false },
  ]);
});

it('keeps a frame until the next one, whatever duration the file claims', () => {
  const { frames } = shownFrames([picture(0, { duration: 3 }), picture(25, { duration: 90 }), picture(26)]);
  expect(frames.map((frame) => frame.ticks)).toEqual([25, 1, 10]);
});

it('gives the last frame the gap before it when the file does not say, and a lone one a tick', () => {
  expect(shownFrames([picture(5), picture(12, { duration: 0 })]).frames[1]?.ticks).toBe(7);
  expect(shownFrames([picture(5, { duration: 0 })]).frames).toEqual([{ pts: 5, ticks: 1, key: false }]);
});

it('counts every picture that is not shown', () => {
  const result = shownFrames([picture(-20, { hidden: true }), picture(null), picture(0, { key: true }), picture(0)]);
  expect(result).toEqual({ frames: [{ pts: 0, ticks: 10, key: true }], timeless: 1, doubled: 1, hidden: 1 });
});

it('is empty for a clip without pictures', () => {
  expect(shownFrames([]).frames).toEqual([]);
});
