import { describe, expect, it } from 'vitest';
import { MOST_LEFT, fitLens } from '../../../core/geometry/fit-lens.ts';
import type { LensFit, StraightEdge } from '../../../core/geometry/fit-lens.ts';
import { fitLine } from '../../../core/geometry/fit-line.ts';
import { distort, straighten } from '../../../core/geometry/lens.ts';
import type { Lens } from '../../../core/geometry/lens.ts';
import { entry } from '../../../core/geometry/linear.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import type { Seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../support/within.ts';

const SEED = 577;
const PICTURE = { width: 1920, height: 1080 };
const CENTRE = { x: 960, y: 540 };
const lensOf = (k1: number, k2 = 0): Lens => ({
  focal: Math.hypot(960, 540),
  centre: CENTRE,
  k1,
  k2,
  p1: 0,
  p2: 0,
  k3: 0,
});

type Ends = readonly [number, number, number, number];
/** What stands on a range: the wall's upper edge, two posts, the mat's front edge. */
const ROOM: readonly Ends[] = [
  [100, 90, 1800, 60],
  [90, 100, 130, 1000],
  [1820, 80, 1790, 1000],
  [130, 1000, 1800, 1020],
];

/** `count` places evenly on each edge, as the lens shows them, each off by `placing` both ways. */
function marked(lens: Lens, ends: readonly Ends[], count: number, placing: number, numbers: Seeded): StraightEdge[] {
  return ends.map(([x1, y1, x2, y2]) =>
    Array.from({ length: count }, (_, i) => {
      const part = i / (count - 1);
      const place = distort(lens, { x: x1 + part * (x2 - x1), y: y1 + part * (y2 - y1) });
      if (place === null) throw new Error('beyond the fold');
      return { x: place.x + placing * numbers.normal(), y: place.y + placing * numbers.normal() };
    }),
  );
}

function estimated(fit: LensFit) {
  if (fit.estimate === null) throw new Error('no estimate');
  return fit.estimate;
}

const reasonOf = (fit: LensFit) => (fit.state === 'refused' ? fit.reason : 'fitted');

describe('a lens told by straight edges', () => {
  it('is the one that bent them, barrel or pincushion, with k2 where there is one', () => {
    for (const [k1, k2] of [
      [-0.14, 0],
      [-0.05, 0],
      [0.08, 0],
      [-0.2, 0.06],
      [-0.3, 0.15],
    ] as const) {
      const fit = fitLens(marked(lensOf(k1, k2), ROOM, 6, 0, seeded(SEED)), PICTURE, 0.1);
      expect(fit.state).toBe('fitted');
      const found = estimated(fit);
      within(found.lens.k1, k1, 1e-7);
      within(found.lens.k2, k2, 1e-7);
      within(found.after, 0, 1e-6);
      expect(found.before).toBeGreaterThan(1);
    }
  });

  it('makes them straight: the straightened places lie on lines', () => {
    const edges = marked(lensOf(-0.15, 0.04), ROOM, 5, 0, seeded(SEED));
    const { lens } = estimated(fitLens(edges, PICTURE, 0.1));
    for (const edge of edges) {
      const ideal = edge.map((place) => straighten(lens, place)).filter((place) => place !== null);
      expect(ideal).toHaveLength(5);
      within(fitLine(ideal)?.residual ?? Number.NaN, 0, 1e-4);
    }
  });

  it('does not shrink the picture to come nearer: places that scatter leave k1 without bias, and as far off as it says', () => {
    const numbers = seeded(SEED);
    const [times, k1, placing] = [150, -0.1, 2];
    const found = Array.from({ length: times }, () =>
      estimated(fitLens(marked(lensOf(k1), ROOM, 5, placing, numbers), PICTURE, placing)),
    ).filter(({ lens }) => lens.k2 === 0);
    expect(found.length).toBeGreaterThan(times - 5);
    const misses = found.map(({ lens }) => lens.k1 - k1);
    const mean = misses.reduce((sum, miss) => sum + miss, 0) / found.length;
    const scatter = Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / found.length);
    const u = placing * Math.sqrt(found.reduce((sum, one) => sum + entry(one.covariance, 0, 0), 0) / found.length);
    // Of 150 a standard deviation is known to 5.8 %, the mean to 8.2 % of it: three of each.
    within(scatter / u, 1, 0.18, `seed ${String(SEED)}`);
    within(mean / u, 0, 0.25, `seed ${String(SEED)}`);
    // What is left has lost the parameters: 20 places less 1 + 8.
    within(
      Math.sqrt(found.reduce((sum, one) => sum + one.after ** 2, 0) / found.length),
      placing * Math.sqrt(11 / 20),
      0.1,
    );
  });

  it('has steps that put its covariance together again, for its placing', () => {
    const found = estimated(fitLens(marked(lensOf(-0.2, 0.08), ROOM, 9, 0.5, seeded(SEED)), PICTURE, 0.5));
    expect(found.steps).toHaveLength(2);
    const sum = (of: (step: { k1: number; k2: number }) => number) =>
      found.steps.reduce((all, step) => all + of(step), 0);
    const squared = found.placing ** 2;
    const close = 1e-12;
    within(
      sum(({ k1 }) => k1 * k1),
      squared * entry(found.covariance, 0, 0),
      close,
    );
    within(
      sum(({ k1, k2 }) => k1 * k2),
      squared * entry(found.covariance, 0, 1),
      close,
    );
    within(
      sum(({ k2 }) => k2 * k2),
      squared * entry(found.covariance, 1, 1),
      close,
    );
    within(found.u1, Math.sqrt(sum(({ k1 }) => k1 * k1)), close);
    within(found.u2, Math.sqrt(sum(({ k2 }) => k2 * k2)), close);
  });

  it('grows with the picture: the same k1 from twice the pixels', () => {
    const edges = marked(lensOf(-0.12), ROOM, 6, 1, seeded(SEED));
    const large = edges.map((edge) => edge.map(({ x, y }) => ({ x: 2 * x, y: 2 * y })));
    const [one, two] = [
      estimated(fitLens(edges, PICTURE, 1)),
      estimated(fitLens(large, { width: 3840, height: 2160 }, 2)),
    ];
    within(two.lens.k1, one.lens.k1, 1e-9);
    within(two.after, 2 * one.after, 1e-6);
    within(two.u1, one.u1, 1e-9);
  });

  it('takes its placing from the places where they scatter more than was told', () => {
    const edges = marked(lensOf(-0.12), ROOM, 8, 2, seeded(SEED));
    const found = estimated(fitLens(edges, PICTURE, 1));
    expect(found.placing).toBeGreaterThan(1.5);
    within(found.u1, found.placing * Math.sqrt(entry(found.covariance, 0, 0)), 1e-15);
    expect(estimated(fitLens(edges, PICTURE, 5)).placing).toBe(5);
  });
});

describe('edges do not tell a lens', () => {
  const numbers = () => seeded(SEED);

  it('when there are none, or too few places on them', () => {
    expect(reasonOf(fitLens([], PICTURE, 1))).toBe('too-few-places');
    expect(reasonOf(fitLens(marked(lensOf(-0.14), ROOM, 2, 0, numbers()), PICTURE, 1))).toBe('too-few-places');
    expect(reasonOf(fitLens(marked(lensOf(-0.14), ROOM.slice(0, 2), 3, 0, numbers()), PICTURE, 1))).toBe(
      'too-few-places',
    );
    expect(reasonOf(fitLens(marked(lensOf(-0.14), ROOM.slice(0, 3), 3, 0, numbers()), PICTURE, 1))).toBe('fitted');
  });

  it('when all pass through the middle of the picture', () => {
    const through: readonly Ends[] = [
      [100, 540, 1800, 545],
      [960, 50, 955, 1000],
      [300, 200, 1600, 890],
    ];
    expect(reasonOf(fitLens(marked(lensOf(-0.14), through, 6, 1, numbers()), PICTURE, 1))).toBe('through-middle');
  });

  it('when none is long', () => {
    const short: readonly Ends[] = [
      [100, 100, 300, 90],
      [1700, 900, 1720, 600],
      [200, 900, 500, 920],
    ];
    expect(reasonOf(fitLens(marked(lensOf(-0.14), short, 6, 1, numbers()), PICTURE, 1))).toBe('too-short');
  });

  it('when they are as straight as they were placed; then a bound is given', () => {
    const fit = fitLens(marked(lensOf(0), ROOM, 6, 1, numbers()), PICTURE, 1);
    expect(reasonOf(fit)).toBe('not-significant');
    expect(Math.abs(estimated(fit).lens.k1)).toBeLessThan(3 * estimated(fit).u1);
    // A lens that is there, but hidden by rough placing.
    expect(reasonOf(fitLens(marked(lensOf(-0.02), ROOM, 4, 12, numbers()), PICTURE, 12))).toBe('not-significant');
  });

  it('when k1 alone would fold the picture before its corners, and no k2 is seen that holds it open', () => {
    expect(reasonOf(fitLens(marked(lensOf(-0.2), ROOM, 6, 0.5, numbers()), PICTURE, 0.5))).toBe('no-lens');
  });

  it('when they are bent in reality, each its own way', () => {
    const bent = ROOM.map(([x1, y1, x2, y2], edge) =>
      [0, 1, 2, 3, 4, 5, 6].map((i) => {
        const bow = (edge % 2 === 0 ? 40 : -40) * Math.sin((Math.PI * i) / 6);
        return { x: x1 + (i / 6) * (x2 - x1) + (edge % 2) * bow, y: y1 + (i / 6) * (y2 - y1) + (1 - (edge % 2)) * bow };
      }),
    );
    const fit = fitLens(bent, PICTURE, 1);
    expect(reasonOf(fit)).toBe('still-bent');
    expect(estimated(fit).after).toBeGreaterThan(MOST_LEFT);
  });

  it('and asked wrongly it throws', () => {
    expect(() => fitLens([], PICTURE, 0)).toThrow('placing');
    expect(() => fitLens([], { width: 0, height: 1080 }, 1)).toThrow('size');
  });
});
