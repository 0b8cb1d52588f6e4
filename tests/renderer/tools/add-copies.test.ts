import { expect, test } from 'vitest';
import type { BoxShape, FrameMarks, LineShape } from '../../../core/model/mark.ts';
import { withCopies } from '../../../renderer/tools/add-copies.ts';

const stick: LineShape = {
  ...{ id: 'stick', kind: 'line', role: 'yardstick', lengthMm: 900 },
  ...{ a: { x: 1, y: 2 }, b: { x: 0.1 + 0.2, y: 9 } },
};
const box: BoxShape = { id: 'box', kind: 'box', x: 5, y: 6, width: 7, height: 8, role: 'head-box', carried: true };
const marksWith = (shapes: FrameMarks['shapes']): FrameMarks => ({ frame: { index: 4, pts: 40 }, points: {}, shapes });

test('on a frame without them copies keep what they stand for, behind the shapes that are there', () => {
  const circle = { id: 'c', kind: 'circle', centre: { x: 1, y: 1 }, radius: 3 } as const;
  expect(withCopies(marksWith([circle]), [stick, box])).toEqual(marksWith([circle, stick, box]));
});

test('a frame keeps the one known length and the one head box it has: copies of them are plain', () => {
  const own = [
    { ...stick, id: 'own stick' },
    { ...box, id: 'own box' },
  ];
  expect(withCopies(marksWith(own), [stick, box])).toEqual(
    marksWith([...own, { ...stick, role: null, lengthMm: null }, { ...box, role: null }]),
  );
});

test('of two copies that stand for the same the first does', () => {
  const other: LineShape = { ...stick, id: 'other' };
  expect(withCopies(marksWith([]), [stick, other]).shapes).toEqual([stick, { ...other, role: null, lengthMm: null }]);
});

test('no copies change nothing', () => {
  expect(withCopies(marksWith([box]), [])).toEqual(marksWith([box]));
});
