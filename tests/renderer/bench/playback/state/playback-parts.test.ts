import { describe, expect, it } from 'vitest';
import { NO_ENDS, spanFrames, withEnd, withStart } from '../../../../../renderer/bench/playback/state/loop-span.ts';
import { afterPicture, newPace, paceAt } from '../../../../../renderer/bench/playback/state/playback-pace.ts';
import type { Pace } from '../../../../../renderer/bench/playback/state/playback-pace.ts';
import {
  firstFrame,
  nextFrame,
  playbackInWords,
  smallestEvery,
  stayOf,
} from '../../../../../renderer/bench/playback/state/playback-schedule.ts';

const clip = {
  timebase: { num: 1, den: 1000 },
  frames: [0, 10, 20, 40, 100].map((pts, place) => ({ pts, ticks: place === 4 ? 25 : 10, key: true })),
};
const whole = { from: 0, to: 4 };

describe('the order of a run', () => {
  it('goes on evenly, ends on the last frame, and begins again where it loops', () => {
    expect([0, 1, 2, 3, 4].map((at) => nextFrame(at, 2, whole, false))).toEqual([2, 3, 4, 4, null]);
    expect(nextFrame(4, 2, whole, true)).toBe(0);
    expect(nextFrame(9, 1, { from: 2, to: 4 }, true)).toBe(2);
    expect(nextFrame(2, 1, { from: 2, to: 2 }, true)).toBeNull();
  });

  it('begins where the coach is, else at the beginning of the span', () => {
    expect([0, 3, 4, 9].map((at) => firstFrame(at, { from: 2, to: 4 }))).toEqual([2, 3, 2, 2]);
  });

  it('lets each frame stay for its own time, times the slowing', () => {
    expect([stayOf(clip, 0, 1, 1), stayOf(clip, 0, 3, 2), stayOf(clip, 4, 0, 4)]).toEqual([10, 80, 100]);
    expect(stayOf(clip, 4, 5, 1)).toBe(0);
  });

  it('needs to pass frames over where the screen is slower than the clip', () => {
    // 25 ms a frame.
    expect([10, 25, 27, 50, 60].map((refresh) => smallestEvery(clip, whole, 1, refresh))).toEqual([1, 1, 1, 2, 3]);
    expect(smallestEvery(clip, whole, 8, 60)).toBe(1);
    expect(smallestEvery(clip, { from: 2, to: 2 }, 1, 60)).toBe(1);
  });

  it('is said in words', () => {
    expect([1, 2, 3, 4, 8, 11, 12, 21, 23].map(playbackInWords)).toEqual([
      'playing',
      ...['2nd', '3rd', '4th', '8th', '11th', '12th', '21st', '23rd'].map((nth) => `playing, every ${nth} frame`),
    ]);
  });
});

describe('the pace of a run', () => {
  const after = (pace: Pace, pictures: number, planned: number, took: number): Pace => {
    let now = pace;
    for (let place = 0; place < pictures; place += 1) now = afterPicture(now, planned, took);
    return now;
  };

  it('stays where pictures come in time, and where one is late', () => {
    expect(after(newPace(1), 500, 30, 30).every).toBe(1);
    expect(after(afterPicture(newPace(1), 30, 900), 40, 30, 30).every).toBe(1);
  });

  it('passes over as many as needed where they do not', () => {
    expect(after(newPace(1), 8, 10, 35).every).toBe(4);
    expect(after(newPace(4), 8, 16, 40).every).toBe(10);
  });

  it('tries fewer after a calm while, and waits longer each time that does not hold', () => {
    let pace = after({ ...newPace(1), every: 3 }, 8, 100, 100);
    expect(pace.every).toBe(3);
    pace = after(pace, 16, 100, 100);
    expect([pace.every, pace.trying]).toEqual([2, true]);
    const failed = after(pace, 8, 70, 100);
    expect([failed.every, failed.trying]).toEqual([3, false]);
    expect(failed.patience).toBe(2 * newPace(1).patience);
  });

  it('never goes below what the screen can show', () => {
    expect(after(newPace(4), 1000, 20, 20).every).toBe(4);
  });

  it('takes what the machine was found able to do along to another speed', () => {
    const slow = { ...newPace(1), every: 8 };
    expect(paceAt(slow, 1, 1 / 2).every).toBe(4);
    expect(paceAt(slow, 1, 1 / 8).every).toBe(1);
    expect(paceAt(newPace(1), 1, 2).every).toBe(1);
    expect(paceAt(newPace(1), 4, 4).every).toBe(4);
  });
});

describe('the span of a loop', () => {
  it('is the whole clip until an end is set', () => {
    expect(spanFrames(clip.frames, NO_ENDS)).toEqual(whole);
    expect(spanFrames(clip.frames, withStart(NO_ENDS, 20))).toEqual({ from: 2, to: 4 });
    expect(spanFrames(clip.frames, withEnd(NO_ENDS, 20))).toEqual({ from: 0, to: 2 });
    expect(spanFrames([], NO_ENDS)).toEqual({ from: 0, to: 0 });
  });

  it('lets an end go that would lie on the wrong side', () => {
    expect(withStart({ start: 0, end: 20 }, 40)).toEqual({ start: 40, end: null });
    expect(withEnd({ start: 20, end: 40 }, 10)).toEqual({ start: null, end: 10 });
    expect(withEnd({ start: 20, end: 40 }, 20)).toEqual({ start: null, end: 20 });
    expect(withEnd({ start: 20, end: null }, 40)).toEqual({ start: 20, end: 40 });
  });

  it('counts an end that the clip does not have as not set', () => {
    expect(spanFrames(clip.frames, { start: 15, end: 40 })).toEqual({ from: 0, to: 3 });
  });
});
