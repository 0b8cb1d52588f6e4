import { describe, expect, it } from 'vitest';
import { placeOnArc } from '../../../core/geometry/arc.ts';
import { FARTHEST_LOW, SHORTEST_ARC, fitArc, fitFreeArc } from '../../../core/geometry/fit-arc.ts';
import type { SwingPoint } from '../../../core/geometry/point.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import type { Seeded } from '../../../core/measure/uncertainty/seeded.ts';

/** The study that the limits of `fitArc` stand on; its table stands beside them. */
const SEED = 20261126;
const DEGREE = Math.PI / 180;
const RADIUS = 350;
const PLACING = 3;
const INCLINE = 45 * DEGREE;
const ARC = { centre: { along: 0, up: 0 }, radius: RADIUS, incline: INCLINE };

/** Six points evenly over `span` degrees that end `past` degrees before the low point. */
function points(span: number, past: number, numbers: Seeded): SwingPoint[] {
  const last = -90 - past;
  return [0, 1, 2, 3, 4, 5].map((i) => {
    const { along, up } = placeOnArc(ARC, (last - span + (span * i) / 5) * DEGREE);
    return { along: along + PLACING * numbers.normal(), up: up + PLACING * numbers.normal() };
  });
}

/** Root mean square miss of the low point along the target line, and the mean miss of the radius; parts of the radius. */
function study(span: number, past: number, times: number) {
  const numbers = seeded(SEED);
  let [squares, grown] = [0, 0];
  for (let time = 0; time < times; time += 1) {
    const fit = fitFreeArc(points(span, past, numbers), INCLINE);
    if (fit === null) throw new Error(`no arc at time ${String(time)} of seed ${String(SEED)}`);
    squares += fit.centre.along ** 2;
    grown += fit.radius - RADIUS;
  }
  return { low: Math.sqrt(squares / times) / RADIUS, radius: grown / times / RADIUS };
}

describe(`what short arcs tell, six points of 3 px on 350 px (seed ${String(SEED)})`, () => {
  it('a low point to better than a tenth of the radius from the limits on, wherever they let it lie', () => {
    for (const past of [-30, 0, 10, FARTHEST_LOW / DEGREE]) {
      const { low, radius } = study(SHORTEST_ARC / DEGREE, past, 400);
      expect(low).toBeLessThan(0.1);
      expect(Math.abs(radius)).toBeLessThan(0.02);
    }
  });

  it('not so from 40 degrees, and nothing at all from 30', () => {
    expect(study(40, 10, 400).low).toBeGreaterThan(0.1);
    expect(study(40, 10, 400).radius).toBeGreaterThan(0.02);
    expect(study(30, 10, 400).low).toBeGreaterThan(0.3);
  });

  it('of arcs of 40 degrees fewer than 2 in 100 get through, of arcs of 75 more than 98', () => {
    const kept = (span: number) => {
      const numbers = seeded(SEED + span);
      const fits = Array.from({ length: 400 }, () => fitArc(points(span, 5, numbers), INCLINE));
      return fits.filter(({ state }) => state === 'fitted').length / 400;
    };
    expect(kept(40)).toBeLessThan(0.02);
    expect(kept(75)).toBeGreaterThan(0.98);
  });
});
