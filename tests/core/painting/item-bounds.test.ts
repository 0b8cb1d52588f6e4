import { createCanvas } from '@napi-rs/canvas';
import { expect, test } from 'vitest';
import type { DrawItem } from '../../../core/painting/draw-item.ts';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import { boundsOf, isNear } from '../../../core/painting/item-bounds.ts';
import type { PlacedItem } from '../../../core/painting/draw-item.ts';
import { paint } from '../../../core/painting/paint.ts';
import { recordingContext } from '../../support/recording-context.ts';
import { seeded } from '../../support/seeded.ts';
import { EVERY_MARK } from './marks.ts';

const SEED = 20261126;
const LINE = { look: 'plain', weight: 'line' } as const;

function strokes(items: readonly DrawItem[], view: Parameters<typeof paint>[2]): number {
  const { ctx, calls } = recordingContext();
  paint(ctx, items, view);
  return calls.filter((call) => call === 'stroke').length;
}

test('the bounds of an item hold its places, whichever way round it was drawn', () => {
  const a = { x: 30, y: 5 };
  const b = { x: 10, y: 45 };
  const box = { x: 10, y: 5, width: 20, height: 40 };
  for (const [from, to] of [
    [a, b],
    [b, a],
  ] as const) {
    expect(boundsOf({ kind: 'segment', a: from, b: to, ends: 'plain', ...LINE })).toEqual(box);
    expect(boundsOf({ kind: 'polyline', points: [from, { x: 20, y: 20 }, to], ...LINE })).toEqual(box);
  }
  expect(boundsOf({ kind: 'box', ...box, ...LINE })).toEqual(box);
  expect(boundsOf({ kind: 'point', at: a, look: 'plain', hidden: false })).toEqual({ ...a, width: 0, height: 0 });
  expect(boundsOf({ kind: 'place', at: a, look: 'plain' })).toEqual({ ...a, width: 0, height: 0 });
});

test('of a circle and of an arc it is the box of the whole circle', () => {
  const centre = { x: 50, y: 60 };
  const whole = { x: 43, y: 53, width: 14, height: 14 };
  expect(boundsOf({ kind: 'circle', centre, radius: 7, ...LINE })).toEqual(whole);
  expect(boundsOf({ kind: 'arc', centre, radius: 7, start: 0, end: 1, ...LINE })).toEqual(whole);
});

test('near counts the margin and the edge itself, in all four directions, also without width or height', () => {
  const shown = { x: 100, y: 100, width: 50, height: 50 };
  for (const [x, y] of [
    [95, 120],
    [155, 120],
    [120, 95],
    [120, 155],
  ] as const) {
    expect(isNear({ x, y, width: 0, height: 0 }, shown, 5)).toBe(true);
    expect(isNear({ x, y, width: 0, height: 0 }, shown, 4.99)).toBe(false);
  }
  expect(isNear({ x: 0, y: 0, width: 500, height: 500 }, shown, 0)).toBe(true);
  expect(isNear({ x: 120, y: 0, width: 0, height: 500 }, shown, 0)).toBe(true);
});

test('what lies far from what shows is not painted; what reaches into it by its stroke or its ring is', () => {
  const visible = { x: 0, y: 0, width: 100, height: 100 };
  const point = (x: number): PlacedItem => ({ kind: 'point', at: { x, y: 50 }, look: 'plain', hidden: true });
  // A hollow point of 4 with a stroke of 1.5 and an outline of 1.25 reaches 6 px beyond its place.
  expect(strokes([point(105.9)], { scale: 1, visible })).toBe(2);
  expect(strokes([point(130)], { scale: 1, visible })).toBe(0);
  // Widths are constant on the target: at eight times they reach an eighth as far in the picture.
  expect(strokes([point(103)], { scale: 8, visible })).toBe(0);
  expect(strokes([point(103)], { scale: 8, unit: 8, visible })).toBe(2);
  const beside = { kind: 'segment', a: { x: -9, y: 0 }, b: { x: -9, y: 9 }, ends: 'ticks', ...LINE } as const;
  expect(strokes([beside], { scale: 1, visible })).toBe(2);
});

test('a part is painted, to the last pixel, as it is where all is painted', () => {
  const items = drawListOf(EVERY_MARK, { look: 'then', width: 360, height: 480 }).filter(
    ({ kind }) => kind !== 'label',
  );
  const random = seeded(SEED);
  for (let round = 0; round < 150; round += 1) {
    const scale = 0.5 + 8 * random();
    const visible = { x: 360 * random(), y: 480 * random(), width: 60 / scale, height: 60 / scale };
    const pixels = (view: Parameters<typeof paint>[2]): Buffer => {
      const context = createCanvas(60, 60).getContext('2d');
      context.setTransform(scale, 0, 0, scale, -visible.x * scale, -visible.y * scale);
      paint(context, items, view);
      return Buffer.from(context.getImageData(0, 0, 60, 60).data.buffer);
    };
    expect(pixels({ scale, visible }).equals(pixels({ scale })), `seed ${SEED}, round ${round}`).toBe(true);
  }
});
