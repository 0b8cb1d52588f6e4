import { expect, test } from 'vitest';
import { lengthInCell, placeInCell } from '../../../renderer/canvas/cell-place.ts';
import { within } from '../../support/within.ts';

const RECT = { left: 31.5, top: 200.25, width: 212 };
const PART = { x: 410, y: 96, width: 530, height: 707.5 };

test('the corners of a small picture are the corners of the part that it shows', () => {
  expect(placeInCell(RECT, PART, { x: 31.5, y: 200.25 })).toEqual({ x: 410, y: 96 });
  const other = placeInCell(RECT, PART, { x: 31.5 + 212, y: 200.25 + 283 });
  within(other.x, 940, 1e-9);
  within(other.y, 803.5, 1e-9);
});

test('a way on the screen is the same way in the picture, whatever it starts from', () => {
  const from = placeInCell(RECT, PART, { x: 100, y: 300 });
  const to = placeInCell(RECT, PART, { x: 107, y: 300 });
  within(to.x - from.x, lengthInCell(RECT, PART, 7), 1e-9);
  within(lengthInCell(RECT, PART, 7), 17.5, 1e-9);
});
