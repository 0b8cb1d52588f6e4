import { describe, expect, it } from 'vitest';
import { fitLine } from '../../../core/geometry/fit-line.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../support/within.ts';

const SEED = 4711;
/** Difference of two directions of lines, which repeat after pi. */
const apart = (a: number, b: number) => Math.abs(Math.sin(a - b));
const fitted = (points: readonly PicturePoint[]) => {
  const fit = fitLine(points);
  if (fit === null) throw new Error('no line');
  return fit;
};

describe('a line through points', () => {
  it('is worked by hand: (0, 0) (2, 1) (4, 0) lie around y = 1/3, off by 1/3, 2/3 and 1/3', () => {
    const fit = fitted([
      { x: 0, y: 0 },
      { x: 2, y: 1 },
      { x: 4, y: 0 },
    ]);
    within(fit.middle.x, 2, 1e-15);
    within(fit.middle.y, 1 / 3, 1e-15);
    within(fit.direction, 0, 1e-15);
    within(fit.residual, Math.sqrt(6 / 27), 1e-15);
    within(fit.length, 4, 1e-15);
    // Squares along: 4 + 0 + 4 = 8, across: 1/9 + 4/9 + 1/9 = 2/3.
    within(fit.directionUncertainty, Math.sqrt(8 + 2 / 3) / (8 - 2 / 3), 1e-15);
  });

  it('through two points is theirs, upright ones included', () => {
    within(
      fitted([
        { x: 3, y: 9 },
        { x: 3, y: -1 },
      ]).direction,
      Math.PI / 2,
      1e-15,
    );
    within(
      fitted([
        { x: 0, y: 0 },
        { x: 1, y: -1 },
      ]).direction,
      -Math.PI / 4,
      1e-15,
    );
    expect(
      fitted([
        { x: 0, y: 0 },
        { x: 1, y: -1 },
      ]).residual,
    ).toBeLessThan(1e-15);
  });

  it('moves, turns and grows with them, wherever in the picture they are', () => {
    const numbers = seeded(SEED);
    for (let time = 0; time < 200; time += 1) {
      const points = [0, 1, 2, 3, 4].map((i) => ({
        x: 90 * i + 5 * numbers.normal(),
        y: 20 * i + 5 * numbers.normal(),
      }));
      const [turn, scale] = [7 * numbers.uniform(), 0.1 + 3 * numbers.uniform()];
      const [x, y] = [4000 * numbers.normal(), 4000 * numbers.normal()];
      const [cos, sin] = [scale * Math.cos(turn), scale * Math.sin(turn)];
      const [one, other] = [
        fitted(points),
        fitted(points.map((p) => ({ x: x + cos * p.x - sin * p.y, y: y + sin * p.x + cos * p.y }))),
      ];
      within(apart(other.direction, one.direction + turn), 0, 1e-9, `seed ${String(SEED)}`);
      // Coordinates of some 10,000 px are exact to 1e-12.
      within(other.residual, scale * one.residual, 1e-9);
      within(other.length, scale * one.length, 1e-9);
      within(other.directionUncertainty * scale, one.directionUncertainty, 1e-9);
    }
  });

  it('has no smaller sum of squared distances beside it', () => {
    const numbers = seeded(SEED);
    const points = [0, 1, 2, 3, 4, 5].map((i) => ({ x: 30 * i, y: 300 - 55 * i + 9 * numbers.normal() }));
    const fit = fitted(points);
    const sum = (turn: number, shift: number) =>
      points.reduce((total, { x, y }) => {
        const [cos, sin] = [Math.cos(fit.direction + turn), Math.sin(fit.direction + turn)];
        return total + ((y - fit.middle.y) * cos - (x - fit.middle.x) * sin - shift) ** 2;
      }, 0);
    within(sum(0, 0), 6 * fit.residual ** 2, 1e-9);
    for (const [turn, shift] of [
      [0.001, 0],
      [-0.001, 0],
      [0, 0.1],
      [0, -0.1],
    ] as const)
      expect(sum(turn, shift)).toBeGreaterThan(sum(0, 0));
  });

  it('scatters in its direction as it says', () => {
    const numbers = seeded(SEED);
    const truth = [0, 1, 2, 3, 4].map((i) => ({ x: 100 + 60 * i, y: 80 + 40 * i }));
    const times = 4000;
    const misses = Array.from({ length: times }, () =>
      Math.sin(
        fitted(truth.map(({ x, y }) => ({ x: x + 2 * numbers.normal(), y: y + 2 * numbers.normal() }))).direction -
          Math.atan2(40, 60),
      ),
    );
    const scatter = Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / times);
    // 4,000 times tell a standard deviation to 1.1 %: three of these.
    within(scatter / (2 * fitted(truth).directionUncertainty), 1, 0.034, `seed ${String(SEED)}`);
  });

  it('is none through one place, nor where points lie in no direction', () => {
    expect(fitLine([])).toBeNull();
    expect(fitLine([{ x: 1, y: 2 }])).toBeNull();
    expect(fitLine(Array.from({ length: 4 }, () => ({ x: 0.1, y: 0.7 })))).toBeNull();
    expect(
      fitLine(
        [
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 1],
        ].map(([x = 0, y = 0]) => ({ x, y })),
      ),
    ).toBeNull();
    expect(
      fitLine([
        { x: Number.NaN, y: 0 },
        { x: 1, y: 1 },
      ]),
    ).toBeNull();
  });
});
