import { describe, expect, it } from 'vitest';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import {
  LONG_FRAMES,
  LONG_SECONDS,
  SUGGESTED_SECONDS,
  beginningOf,
  summariseClip,
  nearestFrame,
} from '../../../core/time/clip-summary.ts';

/** `count` frames at a steady rate, from a time stamp other than 0. */
function clip(count: number, rate: number, captured: number | null = null): ClipIndex {
  return {
    ...{ width: 1080, height: 1920, turn: 90, mirrored: false, pixelAspect: { num: 1, den: 1 }, dynamicRange: 'sdr' },
    ...{ timebase: { num: 1, den: rate * 10 }, variable: false, nominalRate: { num: rate, den: 1 }, sound: false },
    captureRate: captured === null ? null : { framesPerSecond: { num: captured, den: 1 }, confirmed: false },
    frames: Array.from({ length: count }, (_, at) => ({ pts: at * 10 - 500, ticks: 10, key: at % 30 === 0 })),
    damage: [],
    leftOut: { doubled: 2, hidden: 0, timeless: 1 },
  };
}

describe('what is told of a clip', () => {
  it('is its frames, its length from the first frame to the end of the last, and when each comes', () => {
    const look = summariseClip(clip(61, 30), 12_345);
    expect(look).toMatchObject({ frameCount: 61, width: 1080, height: 1920, bytes: 12_345, long: false });
    expect(look.seconds).toBe(61 / 30);
    expect(look.times[0]).toBe(0);
    expect(look.times[60]).toBe(2);
    expect(look.suggestedSpan).toBeNull();
    expect(look.leftOut).toEqual({ doubled: 2, hidden: 0, timeless: 1 });
  });

  it('is that it is long above 30 seconds, and above 2,000 frames', () => {
    const isLong = (count: number, rate: number) => summariseClip(clip(count, rate), 1).long;
    expect([LONG_SECONDS, LONG_FRAMES]).toEqual([30, 2000]);
    expect([isLong(900, 30), isLong(901, 30)]).toEqual([false, true]);
    expect([isLong(2000, 240), isLong(2001, 240)]).toEqual([false, true]);
  });
});

describe('of a long clip', () => {
  it('the last 8 seconds are suggested', () => {
    expect(SUGGESTED_SECONDS).toBe(8);
    expect(summariseClip(clip(1800, 30), 1).suggestedSpan).toEqual({ from: 1800 - 240, to: 1799 });
  });

  it('that plays slower than it was filmed, the last 8 seconds of the swing', () => {
    expect(summariseClip(clip(4800, 30, 240), 1).suggestedSpan).toEqual({ from: 4800 - 8 * 240, to: 4799 });
    expect(summariseClip(clip(2400, 30, 480), 1).suggestedSpan).toEqual({ from: 0, to: 2399 });
    // A capture rate below the rate of playing says nothing about slow motion.
    expect(summariseClip(clip(2400, 60, 30), 1).suggestedSpan).toEqual({ from: 2400 - 480, to: 2399 });
  });
});

describe('the frame nearest to a time', () => {
  const times = [0, 0.1, 0.1001, 0.5];
  it('is the first before the start, the last after the end, and of two as near the earlier', () => {
    const asked = [-1, 0, 0.049, 0.051, 0.1, 0.1001, 0.29, 0.31, 0.5, 99];
    expect(asked.map((at) => nearestFrame(times, at))).toEqual([0, 0, 0, 1, 1, 2, 2, 3, 3, 3]);
    expect(nearestFrame([0, 2], 1)).toBe(0);
  });

  it('is found again from its own time, also as it is shown to people', () => {
    const { times } = summariseClip(clip(999, 7), 1);
    for (const [frame, at] of times.entries())
      expect([nearestFrame(times, at), nearestFrame(times, Number(at.toFixed(3)))]).toEqual([frame, frame]);
  });

  it('is the first where there is nothing to go by', () => {
    expect(nearestFrame([], 1)).toBe(0);
    expect(nearestFrame(times, Number.NaN)).toBe(0);
  });
});

it('a part is likely to begin at the last key picture that is not later', () => {
  const { keys } = summariseClip(clip(100, 30), 1);
  expect(keys).toEqual([0, 30, 60, 90]);
  expect([0, 29, 30, 99].map((from) => beginningOf(keys, from))).toEqual([0, 0, 30, 90]);
  expect(beginningOf([], 5)).toBe(0);
});
