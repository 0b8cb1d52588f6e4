import { expect, test } from 'vitest';
import type { Shape } from '../../../core/model/mark.ts';
import { bodyPlaces, isForStudents } from '../../../core/painting/plain-marks.ts';
import { EVERY_MARK } from './marks.ts';

test('a student sees what was drawn to be looked at, and nothing that is measured by', () => {
  const line = { kind: 'line', id: 'l', a: { x: 0, y: 0 }, b: { x: 9, y: 9 }, role: null, lengthMm: null } as const;
  const ball: Shape = { kind: 'circle', id: 'b', centre: { x: 0, y: 0 }, radius: 3, role: 'ball' };
  const circle: Shape = { kind: 'circle', id: 'c', centre: { x: 0, y: 0 }, radius: 3 };
  const edge: Shape = { kind: 'edge', id: 'e', places: [line.a, line.b, { x: 5, y: 5 }] };
  const shown = [line, { ...line, role: 'plumb' } as const, ball, circle, edge].filter(isForStudents);
  expect(shown).toEqual([line, circle]);
});

test('the body is where its points are joined, and the whole head', () => {
  const { points } = EVERY_MARK;
  const places = bodyPlaces(EVERY_MARK, 480);
  const near = (at: { x: number; y: number } | undefined) =>
    at !== undefined && places.some(({ x, y }) => Math.hypot(x - at.x, y - at.y) <= 0.02 * 480 + 1e-9);
  expect(near(points['neck-base'])).toBe(true);
  expect(near(points.tailbone)).toBe(true);
  expect(bodyPlaces({ ...EVERY_MARK, points: {} }, 480)).toEqual([]);
});
