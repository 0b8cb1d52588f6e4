import { expect, test } from 'vitest';
import { liesIn, sharedArea } from '../../../core/painting/box.ts';
import { placeLabels } from '../../../core/painting/label-places.ts';

const NOTHING = { points: [], lines: [] };
const VISIBLE = { x: 0, y: 0, width: 400, height: 300 };

test('a label alone stands to the right of its point, level with it', () => {
  expect(placeLabels([{ at: { x: 100, y: 100 }, width: 60, height: 20 }], NOTHING, VISIBLE, 9)).toEqual([
    { x: 109, y: 90, width: 60, height: 20 },
  ]);
});

test('labels of points close together do not cover one another', () => {
  const labels = [0, 1, 2, 3, 4].map((i) => ({ at: { x: 200 + i, y: 150 + i }, width: 60, height: 20 }));
  const boxes = placeLabels(labels, { points: labels.map((label) => label.at), lines: [] }, VISIBLE, 9);
  for (const [i, box] of boxes.entries())
    for (const other of boxes.slice(i + 1)) expect(sharedArea(box, other)).toBe(0);
});

test('a label keeps off a line that runs through its point', () => {
  const at = { x: 200, y: 150 };
  const lines = Array.from({ length: 41 }, (_, i) => ({ x: i * 10, y: 150 }));
  const [box] = placeLabels([{ at, width: 60, height: 20 }], { points: [], lines }, VISIBLE, 9);
  expect(box === undefined || (box.y < 150 && box.y + box.height > 150)).toBe(false);
});

test('labels stay in what is visible, also of points outside of it', () => {
  for (const x of [-500, 0, 399, 2000])
    for (const y of [-500, 0, 299, 2000]) {
      const [box] = placeLabels([{ at: { x, y }, width: 60, height: 20 }], NOTHING, VISIBLE, 9);
      expect(box !== undefined && liesIn(box, VISIBLE)).toBe(true);
    }
});

test('a label leaves free the texts that lie there already', () => {
  const label = { at: { x: 100, y: 100 }, width: 60, height: 20 };
  const [alone] = placeLabels([label], NOTHING, VISIBLE, 9);
  const [beside] = placeLabels([label], { ...NOTHING, texts: alone === undefined ? [] : [alone] }, VISIBLE, 9);
  expect(alone !== undefined && beside !== undefined && sharedArea(alone, beside)).toBe(0);
});
