import { describe, expect, it } from 'vitest';
import { nearestOnEllipse } from '../../../core/geometry/ellipse.ts';
import { algebraicEllipse, fitEllipse } from '../../../core/geometry/fit-ellipse.ts';
import { fitCircle } from '../../../core/geometry/fit-circle.ts';
import type { PicturePoint } from '../../../core/model/mark.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../support/within.ts';

const SEED = 8128;

interface Wanted {
  readonly x: number;
  readonly y: number;
  readonly major: number;
  readonly minor: number;
  readonly angle: number;
}

const on = ({ x, y, major, minor, angle }: Wanted, phases: readonly number[]): PicturePoint[] =>
  phases.map((phase) => {
    const [u, v] = [major * Math.cos(phase), minor * Math.sin(phase)];
    return { x: x + u * Math.cos(angle) - v * Math.sin(angle), y: y + u * Math.sin(angle) + v * Math.cos(angle) };
  });
const fitted = (points: readonly PicturePoint[]) => {
  const fit = fitEllipse(points);
  if (fit === null) throw new Error(`no ellipse (seed ${String(SEED)})`);
  return fit;
};

describe('the place of an ellipse nearest to a point', () => {
  it('lies on the ellipse, no other is nearer, and the point is straight out from it', () => {
    const numbers = seeded(SEED);
    for (let time = 0; time < 2000; time += 1) {
      const b = 10 ** (3 * numbers.uniform());
      const a = b * (1 + 10 ** (5 * numbers.uniform() - 4));
      const [x, y] = [3 * a * (numbers.uniform() - 0.5), 3 * b * (numbers.uniform() - 0.5)];
      const near = nearestOnEllipse(a, b, x, y);
      within((near.x / a) ** 2 + (near.y / b) ** 2, 1, 1e-13);
      within(a * Math.cos(near.phase), near.x, 1e-12 * a);
      within(near.x + near.distance * near.outward.x, x, 1e-11 * a);
      within(near.y + near.distance * near.outward.y, y, 1e-11 * a);
      const least = Math.min(
        ...Array.from({ length: 100 }, (_, i) => Math.hypot(x - a * Math.cos(i / 15.9), y - b * Math.sin(i / 15.9))),
      );
      expect(Math.abs(near.distance)).toBeLessThanOrEqual(least * (1 + 1e-12));
    }
  });

  it('is worked by hand on the axes: half axes 5 and 3', () => {
    expect(nearestOnEllipse(5, 3, 7, 0)).toMatchObject({ x: 5, y: 0, distance: 2, phase: 0 });
    expect(nearestOnEllipse(5, 3, 0, -4)).toMatchObject({ x: 0, y: -3, distance: 1 });
    within(nearestOnEllipse(5, 3, 0, 0).distance, -3, 1e-15);
    // At (1.6, 0) cos phase = 5 x 1.6 / 16 = 1/2: the place (2.5, 3 sqrt(3) / 2), 2.7495 away.
    within(nearestOnEllipse(5, 3, 1.6, 0).x, 2.5, 1e-14);
    within(nearestOnEllipse(5, 3, 1.6, 0).distance, -Math.hypot(0.9, 1.5 * Math.sqrt(3)), 1e-14);
  });

  it('goes on smoothly off the axes, down to the last digits', () => {
    const at = (y: number) => nearestOnEllipse(5, 3, 1.6, y);
    for (const y of [1e-3, 1e-8, 1e-14, 1e-300]) within(at(y).distance, at(0).distance, 2 * y + 1e-13);
    within(nearestOnEllipse(5, 5, 3e-200, 4e-200).phase, Math.atan2(4, 3), 1e-14);
  });
});

describe('an ellipse fitted to places', () => {
  it('is the one they lie on, five or more, on half of it or all', () => {
    const numbers = seeded(SEED);
    for (let time = 0; time < 200; time += 1) {
      const minor = 20 + 300 * numbers.uniform();
      const wanted = {
        x: 2000 * numbers.normal(),
        y: 2000 * numbers.normal(),
        major: minor * (1.05 + 2 * numbers.uniform()),
        minor,
        angle: Math.PI * (numbers.uniform() - 0.5),
      };
      const [start, sweep] = [7 * numbers.uniform(), 3 + 3 * numbers.uniform()];
      const count = 5 + Math.floor(8 * numbers.uniform());
      const fit = fitted(
        on(
          wanted,
          Array.from({ length: count }, (_, i) => start + (sweep * i) / count),
        ),
      );
      // Coordinates of some 10,000 px are exact to 1e-12; five points on half an ellipse multiply that some 1e4 times.
      const close = 1e-6;
      within(fit.centre.x, wanted.x, close);
      within(fit.centre.y, wanted.y, close);
      within(fit.major, wanted.major, close);
      within(fit.minor, wanted.minor, close);
      within(Math.sin(fit.angle - wanted.angle), 0, close);
      within(fit.residual, 0, close);
    }
  });

  it('is worked by hand: (5, 0) (-5, 0) (0, 3) (0, -3) and the place at half a right angle', () => {
    const points = [
      [5, 0],
      [-5, 0],
      [0, 3],
      [0, -3],
      [5 * Math.SQRT1_2, 3 * Math.SQRT1_2],
    ].map(([x = 0, y = 0]) => ({ x, y }));
    const fit = fitted(points);
    within(fit.major, 5, 1e-12);
    within(fit.minor, 3, 1e-12);
    within(fit.angle, 0, 1e-12);
    within(fit.centre.x, 0, 1e-12);
  });

  it('has no smaller sum of squared distances beside it, not even where it started', () => {
    const numbers = seeded(SEED);
    const wanted = { x: 300, y: 200, major: 150, minor: 90, angle: 0.4 };
    for (let time = 0; time < 30; time += 1) {
      const points = on(wanted, [0.2, 0.7, 1.3, 1.9, 2.6, 3.1, 3.8, 4.6]).map(({ x, y }) => ({
        x: x + 3 * numbers.normal(),
        y: y + 3 * numbers.normal(),
      }));
      const fit = fitted(points);
      const sum = (one: Wanted) => {
        const [cos, sin] = [Math.cos(one.angle), Math.sin(one.angle)];
        return points.reduce((total, { x, y }) => {
          const [u, v] = [(x - one.x) * cos + (y - one.y) * sin, (y - one.y) * cos - (x - one.x) * sin];
          return total + nearestOnEllipse(one.major, one.minor, u, v).distance ** 2;
        }, 0);
      };
      const best = { x: fit.centre.x, y: fit.centre.y, major: fit.major, minor: fit.minor, angle: fit.angle };
      within(sum(best), 8 * fit.residual ** 2, 1e-9);
      for (const key of ['x', 'y', 'major', 'minor', 'angle'] as const)
        for (const by of [-1, 1]) {
          const step = by * (key === 'angle' ? 1e-4 : 0.01);
          expect(sum({ ...best, [key]: best[key] + step })).toBeGreaterThan(sum(best));
        }
      const start = algebraicEllipse(points);
      if (start === null) throw new Error('no start');
      expect(sum({ ...start.centre, major: start.major, minor: start.minor, angle: start.angle })).toBeGreaterThan(
        sum(best),
      );
    }
  });

  it('of a circle is the circle', () => {
    const circle = { x: 40, y: -70, major: 120, minor: 120, angle: 0 };
    const points = on(circle, [0, 0.9, 2, 3, 4, 5.5]);
    const fit = fitted(points);
    within(fit.major, fitCircle(points)?.radius ?? Number.NaN, 1e-9);
    within(fit.minor, 120, 1e-9);
    within(fit.centre.y, -70, 1e-9);
  });

  it('moves, turns and grows with its places', () => {
    const numbers = seeded(SEED);
    const points = on({ x: 0, y: 0, major: 150, minor: 90, angle: 0.4 }, [0, 1, 2, 3, 4, 5]).map(({ x, y }) => ({
      x: x + 4 * numbers.normal(),
      y: y + 4 * numbers.normal(),
    }));
    const [cos, sin] = [3 * Math.cos(1.1), 3 * Math.sin(1.1)];
    const [one, other] = [
      fitted(points),
      fitted(points.map(({ x, y }) => ({ x: 700 + cos * x - sin * y, y: -90 + sin * x + cos * y }))),
    ];
    within(other.centre.x, 700 + cos * one.centre.x - sin * one.centre.y, 1e-5);
    within(other.major, 3 * one.major, 1e-5);
    within(other.minor, 3 * one.minor, 1e-5);
    within(Math.sin(other.angle - one.angle - 1.1), 0, 1e-7);
    within(other.residual, 3 * one.residual, 1e-6);
  });

  it('is none through fewer than five places, a line, one place, or what is no ellipse', () => {
    const ellipse = on({ x: 0, y: 0, major: 5, minor: 3, angle: 0 }, [0, 1, 2, 3]);
    expect(fitEllipse([])).toBeNull();
    expect(fitEllipse(ellipse)).toBeNull();
    expect(fitEllipse([...ellipse, ...ellipse])).toBeNull();
    expect(fitEllipse([0, 1, 2, 3, 4, 5].map((i) => ({ x: 3 * i, y: 100 - 7 * i })))).toBeNull();
    expect(fitEllipse(Array.from({ length: 6 }, () => ({ x: 3, y: 4 })))).toBeNull();
    // x y = 1, both branches and one, and y = x².
    expect(fitEllipse([-3, -2, -1, 1, 2, 3].map((x) => ({ x, y: 1 / x })))).toBeNull();
    expect(fitEllipse([0.5, 1, 1.5, 2, 3, 4].map((x) => ({ x, y: 1 / x })))).toBeNull();
    expect(fitEllipse([-2, -1, 0, 1, 2, 3].map((x) => ({ x, y: x * x })))).toBeNull();
    expect(fitEllipse([...ellipse, { x: Number.NaN, y: 1 }])).toBeNull();
  });
});
