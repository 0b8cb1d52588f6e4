import { expect, test } from 'vitest';
import { BITS, ROWS_OF_CELLS, cellMiddles, readStrip, stripBytes, stripPlace } from './code-strip.ts';

test('a number comes back from its own strip', () => {
  for (const number of [0, 1, 2, 250, 4799, 8192, 16383]) expect(readStrip(stripBytes(number))).toBe(number);
});

test('a picture that was mixed of two has no number', () => {
  const [a, b] = [stripBytes(100), stripBytes(101)];
  expect(readStrip(a.map((grey, place) => (grey + (b[place] ?? 0)) / 2))).toBeNull();
});

test('weak contrast is read as long as each bit differs from its opposite by 80', () => {
  const greys = (most: number): number[] => [...stripBytes(77)].map((grey) => (grey > 128 ? 90 + most : 90));
  expect([readStrip(greys(80)), readStrip(greys(79))]).toEqual([77, null]);
});

test('what has no code is refused', () => {
  for (const number of [-1, 0.5, 2 ** BITS, NaN]) expect(() => stripBytes(number)).toThrow('no code');
  expect(() => stripPlace({ width: 1000, height: 500 })).toThrow('multiple of 60');
});

test('the strip lies inside the picture, its cells in rows, and turned with it', () => {
  const stored = { width: 1920, height: 1080 };
  expect(stripPlace(stored)).toEqual({ left: 64, top: 64, width: 896, height: 128, cell: 64 });
  const upright = cellMiddles(stored, 0);
  expect(upright).toHaveLength(BITS * ROWS_OF_CELLS);
  expect([upright[0], upright[1], upright[BITS]]).toEqual([
    { x: 96, y: 96 },
    { x: 160, y: 96 },
    { x: 96, y: 160 },
  ]);
  // A quarter turn clockwise: what was at the left is at the top, what was at the top is at the right.
  const turned = cellMiddles(stored, 90);
  expect([turned[0], turned[1], turned[BITS]]).toEqual([
    { x: 984, y: 96 },
    { x: 984, y: 160 },
    { x: 920, y: 96 },
  ]);
});
