import { describe, expect, it } from 'vitest';
import { drawsOf } from '../../core/measure/uncertainty/draws.ts';
import { normalQuantile } from '../../core/measure/uncertainty/normal-quantile.ts';
import { within } from '../support/within.ts';

describe('quantiles of the normal distribution', () => {
  // JCGM 100:2008, table G.1: level of confidence p, coverage factor k_p (from memory), and k to ten digits (derived).
  it.each([
    [0.6827, 1, 1.0000217133],
    [0.9, 1.645, 1.644853627],
    [0.95, 1.96, 1.9599639845],
    [0.9545, 2, 2.0000024438],
    [0.99, 2.576, 2.5758293035],
    [0.9973, 3, 2.9999769927],
  ])('a part of %d lies within %d standard deviations', (p, printed, exact) => {
    const k = normalQuantile((1 + p) / 2);
    within(k, printed, 0.0005);
    // The approximation errs by up to 1.2e-9 of the value.
    within(k, exact, 5e-9);
    within(normalQuantile((1 - p) / 2), -k, 1e-9);
  });

  it('is 0 in the middle, rises all the way, and is none at the ends', () => {
    expect(normalQuantile(0.5)).toBe(0);
    let last = -Infinity;
    for (let p = 0.0005; p < 1; p += 0.0005) {
      expect(normalQuantile(p)).toBeGreaterThan(last);
      last = normalQuantile(p);
    }
    for (const p of [0, 1, -1, Number.NaN]) expect(() => normalQuantile(p)).toThrow('p must be in (0, 1)');
  });
});

describe('what inputs are drawn from', () => {
  it.each(['normal', 'rectangular'] as const)('%s: mean 0, standard deviation 1, once from every part', (spread) => {
    const draws = drawsOf(spread, 3, 1000, 11);
    const mean = draws.reduce((sum, value) => sum + value, 0) / 1000;
    const square = draws.reduce((sum, value) => sum + value * value, 0) / 1000;
    // Random draws would scatter by 0.03; one from each thousandth by less than a tenth of that.
    within(mean, 0, 0.003);
    within(square, 1, 0.02);
    if (spread === 'rectangular')
      draws.toSorted().forEach((value, part) => {
        within(value / Math.sqrt(12) + 0.5, (part + 0.5) / 1000, 0.0005 + 1e-12);
      });
  });

  it('of one input do not go with those of another, and are the same each time', () => {
    const [one, other] = [drawsOf('normal', 0, 1000, 11), drawsOf('normal', 1, 1000, 11)];
    // Independent: the correlation scatters about 0 by 1 / sqrt(1000); four of these.
    within(one.reduce((sum, value, i) => sum + value * (other[i] ?? 0), 0) / 1000, 0, 0.13);
    expect([...drawsOf('normal', 0, 1000, 11)]).toEqual([...one]);
    expect([...drawsOf('normal', 0, 1000, 12)]).not.toEqual([...one]);
  });
});
