import { expect, test } from 'vitest';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { cropAroundPlayer } from '../../../core/painting/crop.ts';

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
