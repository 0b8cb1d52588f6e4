import { describe, expect, it } from 'vitest';
import { distort, distortionSlopes, straighten } from '../../../core/geometry/lens.ts';
import type { Lens } from '../../../core/geometry/lens.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../support/within.ts';

const SEED = 31;
const NONE: Lens = { focal: 1000, centre: { x: 960, y: 540 }, k1: 0, k2: 0, p1: 0, p2: 0, k3: 0 };
const seen = (lens: Lens, x: number, y: number) => {
  const place = distort(lens, { x, y });
  if (place === null) throw new Error('beyond the fold');
  return place;
};

describe('a lens', () => {
  it('without coefficients changes nothing', () => {
    expect(distort(NONE, { x: 12, y: 700 })).toEqual({ x: 12, y: 700 });
    expect(straighten(NONE, { x: 12, y: 700 })).toEqual({ x: 12, y: 700 });
  });

  it('leaves its centre where it is', () => {
    const lens = { ...NONE, k1: -0.3, p1: 0.01, k3: 0.1 };
    expect(distort(lens, NONE.centre)).toEqual(NONE.centre);
    expect(straighten(lens, NONE.centre)).toEqual(NONE.centre);
  });

  it('is worked by hand: k1 = -0.1 draws a place one focal length out in by a tenth; p2 pushes it on by 3 p2', () => {
    within(seen({ ...NONE, k1: -0.1 }, 1960, 540).x, 1860, 1e-9);
    // r² + 2 x² = 3 at x = 1.
    within(seen({ ...NONE, p2: 0.01 }, 1960, 540).x, 1990, 1e-9);
    within(seen({ ...NONE, p2: 0.01 }, 1960, 540).y, 540, 1e-9);
    // At y = 1: 2 p2 x y = 0, and p1 (r² + 2 y²) = 3 p1.
    within(seen({ ...NONE, p1: 0.01 }, 960, 1540).y, 1570, 1e-9);
    // k2 and k3 at r = 2: 2 (1 + 16 k2 + 64 k3).
    within(seen({ ...NONE, k2: 0.01, k3: 0.001 }, 2960, 540).x, 960 + 2000 * 1.224, 1e-9);
  });

  it('straightened is undone: both ways, to 1e-9 px, for mild and strong lenses', () => {
    const numbers = seeded(SEED);
    const about = (size: number) => size * (2 * numbers.uniform() - 1);
    for (let time = 0; time < 2000; time += 1) {
      const coefficients = { k1: about(0.3), k2: about(0.1), k3: about(0.05), p1: about(0.01), p2: about(0.01) };
      const lens = { ...NONE, ...coefficients };
      const ideal = { x: 1920 * numbers.uniform(), y: 1080 * numbers.uniform() };
      const bent = distort(lens, ideal);
      if (bent === null) continue;
      const [xx, xy, yx, yy] = distortionSlopes(lens, ideal);
      // Near the fold rounding counts for more, as the picture stands still there.
      if (xx * yy - xy * yx < 0.1) continue;
      const back = straighten(lens, bent);
      within(back?.x ?? Number.NaN, ideal.x, 1e-9, `seed ${String(SEED)}, time ${String(time)}`);
      within(back?.y ?? Number.NaN, ideal.y, 1e-9, `seed ${String(SEED)}, time ${String(time)}`);
    }
  });

  it('has the slopes that differences give', () => {
    const lens = { ...NONE, k1: -0.2, k2: 0.05, k3: -0.01, p1: 0.003, p2: -0.002 };
    const [x, y] = [1500, 200];
    const difference = (key: 'x' | 'y', dx: number, dy: number) =>
      (seen(lens, x + dx, y + dy)[key] - seen(lens, x - dx, y - dy)[key]) / 0.2;
    const wanted = [difference('x', 0.1, 0), difference('x', 0, 0.1), difference('y', 0.1, 0), difference('y', 0, 0.1)];
    // Central over 0.1 px: rounding is 1e-12 over 0.2, the third derivative adds less.
    distortionSlopes(lens, { x, y }).forEach((slope, i) => within(slope, wanted[i] ?? Number.NaN, 1e-8));
  });

  it('that folds says nothing beyond: k1 = -0.25 turns back at r = sqrt(4 / 3), where it shows 2/3 of it', () => {
    const lens = { ...NONE, k1: -0.25 };
    const fold = Math.sqrt(4 / 3);
    expect(distort(lens, { x: 960 + 1000 * fold - 1, y: 540 })).not.toBeNull();
    expect(distort(lens, { x: 960 + 1000 * fold + 1, y: 540 })).toBeNull();
    const rim = 960 + (1000 * fold * 2) / 3;
    const near = straighten(lens, { x: rim - 1, y: 540 });
    // The fold is passed at no place that comes out, however near.
    expect(near?.x ?? Infinity).toBeLessThan(960 + 1000 * fold);
    within(seen(lens, near?.x ?? Number.NaN, 540).x, rim - 1, 1e-9);
    expect(straighten(lens, { x: rim + 1, y: 540 })).toBeNull();
    expect(straighten(lens, { x: 1e9, y: 540 })).toBeNull();
  });

  it('that comes back after a fold is followed to the fold only: k1 = -1, k2 = 0.4', () => {
    // 1 - 3 s + 2 s² is 0 at s = 1/2 and at s = 1: growing again beyond.
    const lens = { ...NONE, k1: -1, k2: 0.4 };
    expect(distort(lens, { x: 960 + 1000 * Math.SQRT1_2 - 0.1, y: 540 })).not.toBeNull();
    expect(distort(lens, { x: 960 + 800, y: 540 })).toBeNull();
    expect(distort(lens, { x: 960 + 2000, y: 540 })).toBeNull();
    const back = straighten(lens, { x: 960 + 300, y: 540 });
    expect(back?.x ?? Infinity).toBeLessThan(960 + 1000 * Math.SQRT1_2);
  });

  it('gives nothing for what is no place or no lens', () => {
    expect(straighten({ ...NONE, k1: -0.1 }, { x: Number.NaN, y: 0 })).toBeNull();
    expect(straighten({ ...NONE, k1: Number.NaN }, { x: 1, y: 0 })).toBeNull();
    expect(distort({ ...NONE, k1: Number.NaN }, { x: 1, y: 0 })).toBeNull();
  });
});
