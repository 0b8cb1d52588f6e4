import { expect, test } from 'vitest';
import { matrixOf, project } from '../../core/scene/camera.ts';
import type { Camera } from '../../core/scene/camera.ts';
import { vector } from '../../core/scene/vector.ts';
import { within } from '../support/within.ts';

/*
 * R. Hartley, A. Zisserman, Multiple View Geometry in Computer Vision, 2nd ed., Example 6.2 (cited from memory; the
 * decomposition was recomputed from the printed matrix and agrees to the digits shown).
 */
const PRINTED = [
  [3.53553e2, 3.39645e2, 2.77744e2, -1.44946e6],
  [-1.03528e2, 2.33212e1, 4.59607e2, -6.32525e5],
  [7.07107e-1, -3.53553e-1, 6.12372e-1, -9.18559e2],
] as const;
const camera: Camera = {
  intrinsics: { fx: 468.1648, skew: 91.2251, cx: 300.0001, fy: 427.201, cy: 199.9999 },
  turn: [vector(0.4138, 0.90915, 0.04708), vector(-0.57338, 0.22011, 0.78917), vector(0.70711, -0.35355, 0.61237)],
  centre: vector(1000.0007, 2000.002, 1500.0003),
};

test('K [R | -R C] of the published parts is the published matrix, to the digits of the parts', () => {
  matrixOf(camera).forEach((row, at) => {
    row.forEach((value, column) => {
      const printed = PRINTED[at]?.[column] ?? NaN;
      // The rotation is printed to 5 digits and multiplied by up to 470, and by up to 2700 in the last column.
      within(value, printed, column === 3 ? 30 : 0.01, `P[${String(at)}][${String(column)}]`);
    });
  });
});

test('a point projects as the published matrix says', () => {
  const point = vector(2000, 1500, 2400);
  const times = (row: readonly number[]): number =>
    (row[0] ?? 0) * point.x + (row[1] ?? 0) * point.y + (row[2] ?? 0) * point.z + (row[3] ?? 0);
  const [x, y, w] = [times(PRINTED[0]), times(PRINTED[1]), times(PRINTED[2])];
  const seen = project(camera, point);
  expect(seen).not.toBeNull();
  // Same five printed digits, over a depth of 1,300.
  within(seen?.x ?? 0, x / w, 0.05, 'x');
  within(seen?.y ?? 0, y / w, 0.05, 'y');
});
