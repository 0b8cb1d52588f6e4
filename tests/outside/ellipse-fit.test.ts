import { beforeAll, describe, expect, it } from 'vitest';
import { nearestOnEllipse } from '../../core/geometry/ellipse.ts';
import type { Ellipse } from '../../core/geometry/ellipse.ts';
import { algebraicEllipse, fitEllipse } from '../../core/geometry/fit-ellipse.ts';
import type { PicturePoint } from '../../core/model/mark.ts';
import { seeded } from '../../core/measure/uncertainty/seeded.ts';
import type { Seeded } from '../../core/measure/uncertainty/seeded.ts';
import { visionLibrary } from '../support/vision-library.ts';
import type { VisionLibrary } from '../support/vision-library.ts';

const SEED = 20262;
const SCENES = 1000;
const METHODS = ['fitEllipse', 'fitEllipseAMS', 'fitEllipseDirect'] as const;

/** Rounded to singles, which is all that the library takes: both sides then see the same points. */
function scene(numbers: Seeded, noise: number): PicturePoint[] {
  const minor = 60 + 200 * numbers.uniform();
  const major = minor * (1.1 + numbers.uniform());
  const [x, y, angle] = [1920 * numbers.uniform(), 1080 * numbers.uniform(), Math.PI * numbers.uniform()];
  const [start, sweep] = [2 * Math.PI * numbers.uniform(), 3.5 + 2.7 * numbers.uniform()];
  const count = 12 + Math.floor(20 * numbers.uniform());
  return Array.from({ length: count }, (_, i) => {
    const phase = start + (sweep * i) / count;
    const [u, v] = [major * Math.cos(phase), minor * Math.sin(phase)];
    return {
      x: Math.fround(x + u * Math.cos(angle) - v * Math.sin(angle) + noise * numbers.normal()),
      y: Math.fround(y + u * Math.sin(angle) + v * Math.cos(angle) + noise * numbers.normal()),
    };
  });
}

/** Sum of squared distances of points from an ellipse. */
function sumOf({ centre, major, minor, angle }: Ellipse, points: readonly PicturePoint[]): number {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return points.reduce((sum, point) => {
    const [x, y] = [point.x - centre.x, point.y - centre.y];
    return sum + nearestOnEllipse(major, minor, x * cos + y * sin, y * cos - x * sin).distance ** 2;
  }, 0);
}

/** Largest difference of centre, axes and the places where the longer axis ends, pixels. */
function apart(a: Ellipse, b: Ellipse): number {
  return Math.max(
    Math.abs(a.centre.x - b.centre.x),
    Math.abs(a.centre.y - b.centre.y),
    Math.abs(a.major - b.major),
    Math.abs(a.minor - b.minor),
    (a.major - a.minor) * Math.abs(Math.sin(a.angle - b.angle)),
  );
}

describe(`against a general vision library, 4.12, ${String(SCENES)} scenes of 12 to 31 points (seed ${String(SEED)})`, () => {
  let cv: VisionLibrary;
  beforeAll(async () => {
    cv = await visionLibrary();
  });

  function theirs(method: (typeof METHODS)[number], points: readonly PicturePoint[]): Ellipse {
    const mat = cv.matFromArray(
      points.length,
      1,
      cv.CV_32FC2,
      points.flatMap(({ x, y }) => [x, y]),
    );
    const { center, size, angle } = cv[method](mat);
    mat.delete();
    const along = (angle * Math.PI) / 180;
    const wide = size.width >= size.height;
    return {
      centre: { x: center.x, y: center.y },
      major: Math.max(size.width, size.height) / 2,
      minor: Math.min(size.width, size.height) / 2,
      angle: wide ? along : along + Math.PI / 2,
    };
  }

  function ours(points: readonly PicturePoint[], number: number) {
    const [start, fit] = [algebraicEllipse(points), fitEllipse(points)];
    if (start === null || fit === null)
      throw new Error(`no ellipse in scene ${String(number)} of seed ${String(SEED)}`);
    return { start, fit };
  }

  it('exact points give the ellipse of its two methods that take them as they are', () => {
    const numbers = seeded(SEED);
    const farthest = { fitEllipse: 0, fitEllipseAMS: 0 };
    for (let number = 0; number < SCENES; number += 1) {
      const points = scene(numbers, 0);
      const { fit } = ours(points, number);
      for (const method of ['fitEllipse', 'fitEllipseAMS'] as const)
        farthest[method] = Math.max(farthest[method], apart(fit, theirs(method, points)));
    }
    // Points and answers are singles, exact to 6e-5 px; measured: 9e-5 and 9e-4. The third method shakes points whose
    // system is singular, which exact ones make it: it is up to 4 px off them, and is compared on others below.
    expect(farthest.fitEllipse).toBeLessThan(5e-4);
    expect(farthest.fitEllipseAMS).toBeLessThan(5e-3);
  });

  it('points that scatter by 1 px: our start is its answer by the same equation, our fit is nearer than all', () => {
    const numbers = seeded(SEED + 1);
    const starts = { fitEllipse: 0, fitEllipseAMS: 0, fitEllipseDirect: 0 };
    const fits = { fitEllipse: 0, fitEllipseAMS: 0, fitEllipseDirect: 0 };
    for (let number = 0; number < SCENES; number += 1) {
      const points = scene(numbers, 1);
      const { start, fit } = ours(points, number);
      const least = sumOf(fit, points);
      for (const method of METHODS) {
        const other = theirs(method, points);
        starts[method] = Math.max(starts[method], apart(start, other));
        fits[method] = Math.max(fits[method], apart(fit, other));
        expect(least).toBeLessThan(sumOf(other, points));
      }
    }
    // Taubin's equation on both sides: measured 2e-3.
    expect(starts.fitEllipseAMS).toBeLessThan(0.01);
    // Other equations weigh points otherwise: measured 0.2 and 0.7, of points that scatter by 1 px.
    expect(starts.fitEllipse).toBeLessThan(0.5);
    expect(starts.fitEllipseDirect).toBeLessThan(1.5);
    // Distances are no equation: 1.2 to 1.3 where points on little more than half an ellipse leave it that free.
    for (const method of METHODS) expect(fits[method]).toBeLessThan(2);
  });
});
