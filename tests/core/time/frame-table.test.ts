import { describe, expect, it } from 'vitest';
import { describeClip } from '../../../core/time/describe-clip.ts';
import { entryFrame, frameAtSeconds, frameWithPts } from '../../../core/time/frame-table.ts';
import { clipIndexOf } from '../../support/clip-index.ts';

const uneven = clipIndexOf([900, 1000, 1001, 1400], 1000, { lastTicks: 50, keys: [0, 3], variable: true });

describe('the frame on screen at a time', () => {
  it('is the last one that is not later', () => {
    expect([0.9, 0.9999, 1, 1.001, 1.3999, 1.4, 1.4499].map((at) => frameAtSeconds(uneven, at))).toEqual([
      0, 0, 1, 2, 2, 3, 3,
    ]);
  });

  it('is none before the first and from the end of the last on', () => {
    expect([-1, 0, 0.8999, 1.45, 99].map((at) => frameAtSeconds(uneven, at))).toEqual([null, null, null, null, null]);
  });

  it('is none at what is no time', () => {
    expect([Number.NaN, Infinity, -Infinity].map((at) => frameAtSeconds(uneven, at))).toEqual([null, null, null]);
  });

  it('is the frame itself at every time that is printed, exact or with six decimals', () => {
    for (const [step, den] of [
      [1001, 30000],
      [64, 15360],
      [3003, 90000],
    ] as const) {
      const index = clipIndexOf(
        Array.from({ length: 500 }, (_, i) => i * step),
        den,
      );
      for (let i = 0; i < 500; i += 1) {
        const seconds = (i * step) / den;
        expect(frameAtSeconds(index, seconds)).toBe(i);
        expect(frameAtSeconds(index, Number(seconds.toFixed(6)))).toBe(i);
      }
    }
  });

  it('tells frames apart that are one tick of a microsecond from each other', () => {
    const index = clipIndexOf([0, 1, 2], 1_000_000);
    expect([0, 0.000001, 0.000002].map((at) => frameAtSeconds(index, at))).toEqual([0, 1, 2]);
  });

  it('is none in an empty table', () => {
    expect(frameAtSeconds(clipIndexOf([], 25), 0)).toBeNull();
  });
});

it('finds a frame by its exact time stamp only', () => {
  expect([899, 900, 950, 1001, 1400, 1401].map((pts) => frameWithPts(uneven, pts))).toEqual([
    null,
    0,
    null,
    2,
    3,
    null,
  ]);
});

it('enters decoding at the last key frame that is not later', () => {
  expect([0, 1, 2, 3].map((frame) => entryFrame(uneven, frame))).toEqual([0, 0, 0, 3]);
  expect(entryFrame(clipIndexOf([0, 10, 20], 100, { keys: [2] }), 1)).toBeNull();
});

it('describes a clip with ratios as pairs and unrounded seconds', () => {
  const description = describeClip(clipIndexOf([0, 1001], 30000, { variable: true }));
  expect(description).toEqual({
    width: 4,
    height: 2,
    turn: 0,
    mirrored: false,
    pixelAspect: { num: 1, den: 1 },
    timebase: { num: 1, den: 30000 },
    count: 2,
    variable: true,
    nominalRate: null,
    captureRate: null,
    sound: false,
    dynamicRange: 'sdr',
    damage: [],
    leftOut: null,
    frames: [
      { index: 0, pts: 0, seconds: 0, key: true },
      { index: 1, pts: 1001, seconds: 1001 / 30000, key: false },
    ],
  });
});
