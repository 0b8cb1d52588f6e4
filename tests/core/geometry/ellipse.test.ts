import { describe, expect, it } from 'vitest';
import { nearestOnEllipse } from '../../../core/geometry/ellipse.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../support/within.ts';

const SEED = 8128;

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
