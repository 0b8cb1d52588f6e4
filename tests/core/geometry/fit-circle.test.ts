import { describe, expect, test } from 'vitest';
import { fitCircle } from '../../../core/geometry/fit-circle.ts';
import { within } from '../../support/within.ts';

/** Small linear congruential generator (Numerical Recipes constants). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => (state = (1664525 * state + 1013904223) % 2 ** 32) / 2 ** 32;
}

const around = (x: number, y: number, radius: number, angles: readonly number[]) =>
  angles.map((angle) => ({ x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) }));

describe('a circle fitted to places', () => {
  test('is the one they lie on, wherever it is and however short the arc', () => {
    const random = seeded(5);
    for (let time = 0; time < 200; time += 1) {
      const [x, y, radius] = [4000 * random() - 2000, 4000 * random() - 2000, 20 + 900 * random()];
      const [start, sweep] = [7 * random(), 0.5 + 5 * random()];
      const count = 4 + Math.floor(8 * random());
      const angles = Array.from({ length: count }, (_, at) => start + (sweep * at) / (count - 1));
      const fit = fitCircle(around(x, y, radius, angles));
      within(fit?.centre.x ?? Infinity, x, 1e-6);
      within(fit?.centre.y ?? Infinity, y, 1e-6);
      within(fit?.radius ?? Infinity, radius, 1e-6);
      within(fit?.residual ?? Infinity, 0, 1e-6);
    }
  });

  test('has no smaller sum of squares beside it', () => {
    const random = seeded(11);
    for (let time = 0; time < 50; time += 1) {
      const points = around(300, 200, 150, [0.1, 0.7, 1.2, 1.9, 2.6]).map(({ x, y }) => ({
        x: x + 8 * (random() - 0.5),
        y: y + 8 * (random() - 0.5),
      }));
      const fit = fitCircle(points);
      if (fit === null) throw new Error('no circle');
      const sum = (cx: number, cy: number, r: number) =>
        points.reduce((total, { x, y }) => total + (Math.hypot(x - cx, y - cy) - r) ** 2, 0);
      const least = sum(fit.centre.x, fit.centre.y, fit.radius);
      for (const [dx, dy, dr] of [
        [0.01, 0, 0],
        [-0.01, 0, 0],
        [0, 0.01, 0],
        [0, -0.01, 0],
        [0, 0, 0.01],
        [0, 0, -0.01],
      ] as const)
        expect(sum(fit.centre.x + dx, fit.centre.y + dy, fit.radius + dr)).toBeGreaterThan(least);
      within(fit.residual ** 2 * points.length, least, 1e-9);
    }
  });

  test('moves and grows with its points', () => {
    const points = [
      { x: 10, y: 70 },
      { x: 20, y: 60 },
      { x: 52, y: 80 },
      { x: 70, y: 71 },
      { x: 91, y: 50 },
    ];
    const fit = fitCircle(points);
    const moved = fitCircle(points.map(({ x, y }) => ({ x: 3 * x + 500, y: 3 * y - 200 })));
    within(moved?.centre.x ?? 0, 3 * (fit?.centre.x ?? 0) + 500, 1e-7);
    within(moved?.centre.y ?? 0, 3 * (fit?.centre.y ?? 0) - 200, 1e-7);
    within(moved?.radius ?? 0, 3 * (fit?.radius ?? 0), 1e-7);
  });

  test('is none through fewer than three places, places on a line, or one place again and again', () => {
    const line = [0, 1, 2, 3, 4].map((at) => ({ x: 10 + 7 * at, y: 20 - 3 * at }));
    expect(fitCircle([])).toBeNull();
    expect(fitCircle(line.slice(0, 2))).toBeNull();
    expect(fitCircle(line.slice(0, 3))).toBeNull();
    expect(fitCircle(line)).toBeNull();
    expect(fitCircle(Array.from({ length: 5 }, () => ({ x: 3, y: 4 })))).toBeNull();
  });
});
