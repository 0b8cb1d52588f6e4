import { expect, test } from 'vitest';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { pointUnder } from '../../../renderer/canvas/point-under.ts';

const point = (x: number, y: number): DrawItem => ({ kind: 'point', at: { x, y }, look: 'plain', hidden: false });
const ITEMS: readonly DrawItem[] = [
  { kind: 'segment', a: { x: 0, y: 0 }, b: { x: 30, y: 0 }, look: 'plain', weight: 'stick', ends: 'points' },
  point(0, 0),
  point(30, 0),
];

test('the nearest body point within reach is under the pointer, edges included; lines never are', () => {
  expect(pointUnder(ITEMS, { x: 12, y: 0 }, 12)).toEqual({ x: 0, y: 0 });
  expect(pointUnder(ITEMS, { x: 16, y: 3 }, 20)).toEqual({ x: 30, y: 0 });
  expect(pointUnder(ITEMS, { x: 15, y: 0 }, 12)).toBeNull();
  expect(pointUnder([], { x: 0, y: 0 }, 12)).toBeNull();
});
