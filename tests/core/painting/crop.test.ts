import { describe, expect, test } from 'vitest';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { cropAroundPlayer, cropOfClip, playerOfBoth, playerOfClip } from '../../../core/painting/crop.ts';

const PICTURE = { width: 1920, height: 1080 };

function player(left: number, top: number, right: number, bottom: number): FrameMarks {
  const at = (x: number, y: number) => ({ x, y, hidden: false });
  const points = {
    'head-centre': at(left, top),
    tailbone: at(right, top),
    'lead-toe': at(left, bottom),
    'trail-toe': at(right, bottom),
  };
  return { frame: { index: 0, pts: 0 }, points, shapes: [] };
}

test('the crop holds all points of all frames, with room around, in whole pixels', () => {
  // 500 high, so 70 pixels of room.
  expect(cropAroundPlayer([player(800, 300, 900, 800), player(850, 310, 1000, 790)], PICTURE)).toEqual({
    x: 730,
    y: 230,
    width: 340,
    height: 640,
  });
});

test('the crop ends at the edges of the picture', () => {
  expect(cropAroundPlayer([player(-50, 100, 300, 1075)], PICTURE)).toEqual({ x: 0, y: 0, width: 437, height: 1080 });
});

test('no crop of a player of whom only one end is placed: what is not placed would be cut off', () => {
  const at = (x: number, y: number) => ({ x, y, hidden: false });
  const frame = { index: 0, pts: 0 };
  const [head, neck, hip, toe] = [at(800, 300), at(810, 330), at(830, 550), at(900, 800)];
  const upper = { 'head-centre': head, 'neck-base': neck, 'lead-hip': hip, 'trail-hip': hip };
  const lower = { 'lead-hip': hip, 'trail-hip': hip, 'lead-toe': toe, 'trail-toe': toe };
  expect(cropAroundPlayer([{ frame, points: upper, shapes: [] }], PICTURE)).toBeNull();
  expect(cropAroundPlayer([{ frame, points: lower, shapes: [] }], PICTURE)).toBeNull();
  expect(cropAroundPlayer([{ frame, points: { ...upper, ...lower }, shapes: [] }], PICTURE)).not.toBeNull();
});

test('no crop without enough points, of points all outside, or of nearly the whole picture', () => {
  const two: FrameMarks = { ...player(0, 0, 0, 0), points: { ball: { x: 1, y: 1, hidden: false } } };
  expect(cropAroundPlayer([], PICTURE)).toBeNull();
  expect(cropAroundPlayer([two], PICTURE)).toBeNull();
  expect(cropAroundPlayer([player(3000, 100, 3100, 200)], PICTURE)).toBeNull();
  expect(cropAroundPlayer([player(50, 50, 1900, 1000)], PICTURE)).toBeNull();
});

test('a clip is cropped round its named frames; what is marked on others does not count', () => {
  const one = player(800, 300, 900, 800);
  const other: FrameMarks = { ...player(100, 100, 1800, 1000), frame: { index: 7, pts: 7 } };
  const checkpoints = { top: { index: 0, pts: 0, ticks: 1 } };
  expect(cropOfClip({ ...PICTURE, checkpoints, marks: [one, other] })).toEqual(cropAroundPlayer([one], PICTURE));
  expect(cropOfClip({ ...PICTURE, checkpoints: {}, marks: [one] })).toBeNull();
});

describe('what a large picture is fitted to', () => {
  const marks = player(800, 300, 900, 800);
  const high = { ...marks, points: { ...marks.points, clubhead: { x: 850, y: 20, hidden: false } } };
  const ball = { x: 1900, y: 40, hidden: false };
  const flying = { ...marks, frame: { index: 1, pts: 1 }, points: { ...marks.points, ball } };
  const clip = { ...PICTURE, checkpoints: { top: { index: 0, pts: 0, ticks: 1 } }, marks: [high] };

  test('leaves a clubhead above the head outside, which a cell of the sheet holds', () => {
    expect(playerOfClip(clip)).toEqual(cropAroundPlayer([marks], PICTURE));
    expect(cropOfClip(clip)?.y).toBe(0);
  });

  test('leaves a ball that flies outside, and holds the one at address', () => {
    const named = { index: 1, pts: 1, ticks: 1 };
    expect(playerOfClip({ ...clip, checkpoints: { finish: named }, marks: [flying] })).toEqual(
      cropAroundPlayer([marks], PICTURE),
    );
    expect(cropOfClip({ ...clip, checkpoints: { finish: named }, marks: [flying] })).toEqual(
      cropAroundPlayer([marks], PICTURE),
    );
    const set = { ...flying, points: { ...marks.points, ball: { x: 1300, y: 790, hidden: false } } };
    expect(playerOfClip({ ...clip, checkpoints: { address: named }, marks: [set] })).toEqual(
      cropAroundPlayer([set], PICTURE),
    );
  });

  test('of then and now it holds the player of both, as then lies on now', () => {
    // Now: 730..970 across, 230..870 down. Then, half as large and 300 to the right: 665..785 across, 115..435 down.
    const laid = { a: 0.5, b: 0, c: 0, d: 0.5, e: 300, f: 0 };
    expect(playerOfBoth(clip, clip, laid)).toEqual({ x: 665, y: 115, width: 305, height: 755 });
  });

  test('where one of the two says nothing the other one counts, and where none does nothing', () => {
    const bare = { ...clip, marks: [] };
    const itself = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };
    expect(playerOfBoth(bare, clip, itself)).toEqual(playerOfClip(clip));
    expect(playerOfBoth(clip, bare, itself)).toEqual(playerOfClip(clip));
    expect(playerOfBoth(bare, bare, itself)).toBeNull();
  });
});
