import { expect, test } from 'vitest';
import { gridEdges } from '../../../renderer/canvas/pixel-grid.ts';

test('edges lie between the pixels that are in sight, on whole device pixels', () => {
  expect(gridEdges(16, -40, 100, 50)).toEqual([8, 24, 40]);
  expect(gridEdges(16.4, 0.3, 100, 50)).toEqual([0, 17, 33]);
});

test('the ends of the picture have edges, what is beside it has none', () => {
  expect(gridEdges(20, 15, 3, 200)).toEqual([15, 35, 55, 75]);
});

test('a picture that is out of sight, or that only ends in sight, is no trouble', () => {
  expect(gridEdges(16, 500, 100, 50)).toEqual([]);
  expect(gridEdges(16, -1600, 100, 50)).toEqual([0]);
  expect(gridEdges(16, -1700, 100, 50)).toEqual([]);
});
