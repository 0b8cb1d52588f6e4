import { describe, expect, it } from 'vitest';
import { beyondBox, boxOfNoSize, edgesOf, uprightBox } from '../../../core/geometry/box.ts';
import { toSwing } from '../../../core/geometry/point.ts';
import { circleThrough } from '../../../core/geometry/circle.ts';
import { applySimilarity, fitSimilarity } from '../../../core/geometry/similarity.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import { seeded } from '../../support/seeded.ts';
import { within } from '../../support/within.ts';

describe('the distance beyond the edges of a box', () => {
  const picture = ({ x, y }: PicturePoint) => toSwing({ x, y }, { side: 1, tilt: 0 });
  const box = uprightBox(edgesOf({ x: 10, y: 20, width: 30, height: 40 }), picture);

  it.each([
    ['in the middle: half the shorter side', 25, 40, -15],
    ['near the left edge', 12, 40, -2],
    ['on the right edge', 40, 40, 0],
    ['beyond the right edge', 47, 40, 7],
    ['above the top edge', 25, 11, 9],
    ['beyond a corner: the larger overshoot', 43, 64, 4],
  ])('%s', (_, x, y, expected) => {
    expect(beyondBox(boxOfNoSize(picture({ x, y })), box)).toBe(expected);
    // For a left-hander the picture is mirrored, and a box of some size is so much farther out.
    const mirrored = (at: PicturePoint) => toSwing(at, { side: -1, tilt: 0 });
    const other = uprightBox(edgesOf({ x: 10, y: 20, width: 30, height: 40 }), mirrored);
    expect(beyondBox({ middle: mirrored({ x, y }), halfAlong: 3, halfUp: 3 }, other)).toBe(expected + 3);
  });

  it('is counted by the true vertical: a box that was drawn in a rolled picture is set upright about its middle', () => {
    const rolled = (at: PicturePoint) => toSwing(at, { side: 1, tilt: 0.1 });
    const upright = uprightBox(edgesOf({ x: 10, y: 20, width: 30, height: 40 }), rolled);
    // 40 px up from the middle by the true vertical, which leans to the right.
    const above = { x: 25 + 40 * Math.sin(0.1), y: 40 - 40 * Math.cos(0.1) };
    within(beyondBox(boxOfNoSize(rolled(above)), upright), 20, 1e-9);
  });

  it('is 0 at the point that a box without size is', () => {
    expect(beyondBox(boxOfNoSize({ along: 5, up: 6 }), boxOfNoSize({ along: 5, up: 6 }))).toBe(0);
  });
});

describe('the circle through three points', () => {
  it('of a right triangle has the middle of the long side as centre', () => {
    expect(circleThrough({ x: 0, y: 0 }, { x: 6, y: 0 }, { x: 0, y: 8 })).toEqual({
      centre: { x: 3, y: 4 },
      radius: 5,
    });
  });

  it('does not exist on a line or on one place', () => {
    expect(circleThrough({ x: 0.1, y: 0.1 }, { x: 0.2, y: 0.2 }, { x: 0.3, y: 0.3 })).toBeNull();
    expect(circleThrough({ x: 1, y: 2 }, { x: 1, y: 2 }, { x: 5, y: 2 })).toBeNull();
    expect(circleThrough({ x: 1, y: 2 }, { x: 1, y: 2 }, { x: 1, y: 2 })).toBeNull();
  });
});

describe('a similarity', () => {
  const SEED = 7;
  const random = seeded(SEED);
  const points = [1, 2, 3, 4, 5].map(() => ({ x: 1000 * random(), y: 1000 * random() }));
  const truth = { a: 1.2 * Math.cos(0.3), b: 1.2 * Math.sin(0.3), x0: -40, y0: 95 };

  it(`is found again from moved points (seed ${SEED})`, () => {
    const fit = fitSimilarity(points.map((from) => ({ from, to: applySimilarity(truth, from) })));
    if (fit === null) throw new Error('no fit');
    within(fit.transform.a, truth.a, 1e-12);
    within(fit.transform.b, truth.b, 1e-12);
    within(fit.transform.x0, truth.x0, 1e-9);
    within(fit.transform.y0, truth.y0, 1e-9);
    within(fit.residual, 0, 1e-9);
  });

  it('leaves, when one of two pairs is off, nothing: two pairs are always met', () => {
    const fit = fitSimilarity([
      { from: { x: 0, y: 0 }, to: { x: 10, y: 10 } },
      { from: { x: 1, y: 0 }, to: { x: 10, y: 12 } },
    ]);
    // A quarter turn, twice as large.
    within(fit?.transform.a ?? Number.NaN, 0, 1e-12);
    within(fit?.transform.b ?? Number.NaN, 2, 1e-12);
    within(fit?.residual ?? Number.NaN, 0, 1e-12);
  });

  it('does not exist for fewer than two different points', () => {
    expect(fitSimilarity([])).toBeNull();
    expect(fitSimilarity([{ from: { x: 1, y: 1 }, to: { x: 2, y: 2 } }])).toBeNull();
    const spot = { x: 1, y: 1 };
    const pair = { from: spot, to: { x: 2, y: 2 } };
    expect(fitSimilarity([pair, { from: spot, to: { x: 9, y: 2 } }])).toBeNull();
    expect(fitSimilarity([pair, { from: { x: 5, y: 5 }, to: { x: 2, y: 2 } }])).toBeNull();
  });
});
