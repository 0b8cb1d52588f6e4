import { expect, test } from 'vitest';
import { BODY_POINTS } from '../../../../core/model/body-points.ts';
import { HANDEDNESS, VIEWS } from '../../../../core/model/words.ts';
import { FIGURE, placeOnFigure } from '../../../../renderer/bench/marks/body-places.ts';

test('every body point has a place of its own inside the figure, in both views and for both hands', () => {
  for (const view of VIEWS)
    for (const handedness of HANDEDNESS) {
      const places = BODY_POINTS.map((point) => placeOnFigure(view, point, handedness));
      for (const { x, y } of places) {
        expect(x).toBeGreaterThan(8);
        expect(x).toBeLessThan(FIGURE.width - 8);
        expect(y).toBeGreaterThan(8);
        expect(y).toBeLessThan(FIGURE.height - 4);
      }
      for (const [at, one] of places.entries())
        for (const other of places.slice(at + 1))
          expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThan(4);
    }
});

test('the lead side and the ball lie as in the pictures: mirrored for left-handers', () => {
  const x = (view: (typeof VIEWS)[number], point: (typeof BODY_POINTS)[number], hand: (typeof HANDEDNESS)[number]) =>
    placeOnFigure(view, point, hand).x;
  expect(x('face-on', 'lead-shoulder', 'right')).toBeGreaterThan(x('face-on', 'trail-shoulder', 'right'));
  expect(x('face-on', 'lead-shoulder', 'left')).toBeLessThan(x('face-on', 'trail-shoulder', 'left'));
  expect(x('down-the-line', 'ball', 'right')).toBeGreaterThan(x('down-the-line', 'tailbone', 'right'));
  expect(x('down-the-line', 'ball', 'left')).toBeLessThan(x('down-the-line', 'tailbone', 'left'));
});
