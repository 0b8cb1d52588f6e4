import { describe, expect, it } from 'vitest';
import { cropAround } from '../../../core/jobs/crop-around.ts';
import type { FrameMarks, Shape } from '../../../core/model/mark.ts';

const WIDE = { width: 1920, height: 1080 };
const ID = '0b9f7c52-3a54-4a0e-9a55-6f6f2f7f1d10';

const marked = (columns: readonly number[], shapes: readonly Shape[] = []): FrameMarks => ({
  frame: { index: 0, pts: 0 },
  points: {
    ...(columns[0] === undefined ? {} : { ball: { x: columns[0], y: 900, hidden: false } }),
    ...(columns[1] === undefined ? {} : { 'head-centre': { x: columns[1], y: 300, hidden: false } }),
  },
  shapes,
});

describe('the part of a picture that a still shows', () => {
  it('is all of it when nothing is marked, or all that is marked lies outside', () => {
    expect(cropAround(WIDE, [])).toBeNull();
    expect(cropAround(WIDE, [null, marked([])])).toBeNull();
    expect(cropAround(WIDE, [marked([-500, 2500])])).toBeNull();
  });

  it('is all of an upright picture', () => {
    expect(cropAround({ width: 1080, height: 1920 }, [marked([500, 560])])).toBeNull();
  });

  it('is the whole height and the columns round the marks, with room: 0.2 of the height on each side', () => {
    // From 700 - 216 to 1300 + 216.
    expect(cropAround(WIDE, [marked([700, 1300])])).toEqual({ x: 484, y: 0, width: 1032, height: 1080 });
  });

  it('is never narrower than 0.7 of the height, about the middle of the marks', () => {
    expect(cropAround(WIDE, [marked([1000])])).toEqual({ x: 622, y: 0, width: 756, height: 1080 });
  });

  it('stays inside the picture', () => {
    expect(cropAround(WIDE, [marked([10])])).toEqual({ x: 0, y: 0, width: 756, height: 1080 });
    expect(cropAround(WIDE, [marked([1915])])).toEqual({ x: 1164, y: 0, width: 756, height: 1080 });
  });

  it('holds the marks of all frames that share it', () => {
    const both = cropAround(WIDE, [marked([700]), marked([1300])]);
    expect(both).toEqual(cropAround(WIDE, [marked([700, 1300])]));
  });

  it('follows what is drawn on the player, not a plumb at the wall', () => {
    const line = (x: number, role: 'plumb' | null): Shape => ({
      kind: 'line',
      id: ID,
      a: { x, y: 0 },
      b: { x, y: 500 },
      role,
      lengthMm: null,
    });
    const player = [700, 1000];
    expect(cropAround(WIDE, [marked(player, [line(30, 'plumb')])])).toEqual(cropAround(WIDE, [marked(player)]));
    expect(cropAround(WIDE, [marked(player, [line(1300, null)])])).toEqual(cropAround(WIDE, [marked([700, 1300])]));
    const circle: Shape = { kind: 'circle', id: ID, centre: { x: 1200, y: 500 }, radius: 100 };
    expect(cropAround(WIDE, [marked(player, [circle])])).toEqual(cropAround(WIDE, [marked([700, 1300])]));
  });
});
