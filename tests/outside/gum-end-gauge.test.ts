import { describe, expect, it, test } from 'vitest';
import { COVERAGE_FACTOR } from '../../core/measure/uncertainty/estimate.ts';
import {
  NORMAL_COVERAGE,
  coverageFactor,
  effectiveFreedom,
  studentPart,
  studentQuantile,
} from '../../core/measure/uncertainty/freedom.ts';
import { oneSided } from '../../core/measure/uncertainty/levels.ts';
import { within } from '../support/within.ts';

describe('JCGM 100:2008 (GUM), annex H.1, the end gauge', () => {
  /** Components of the difference of both gauges, nm. */
  const DIFFERENCE = [
    { u: 5.8, freedom: 24 },
    { u: 3.9, freedom: 5 },
    { u: 6.7, freedom: 8 },
  ];
  /** nm. */
  const STANDARD = 50_000_623;
  /**
   * The thermal ones from their bounds, which are rectangular: expansions differ by +-1e-6 a degree
   * at 0.1 degrees off, temperatures by +-0.05 degrees at 11.5e-6 a degree, of a standard of 50 000 623 nm. They print as
   * 2.9 and 16.6.
   */
  const COMPONENTS = [
    { u: 25, freedom: 18 },
    { u: (STANDARD * 0.1 * 1e-6) / Math.sqrt(3), freedom: 50 },
    { u: (STANDARD * 11.5e-6 * 0.05) / Math.sqrt(3), freedom: 2 },
  ];
  const root = (list: readonly { u: number }[]) => Math.sqrt(list.reduce((sum, { u }) => sum + u * u, 0));

  it('the difference has u = 9.7 nm with 25.4 degrees of freedom', () => {
    within(root(DIFFERENCE), 9.68194, 5e-6);
    // Recomputed from the printed components: half a last digit.
    within(effectiveFreedom(DIFFERENCE), 25.447, 5e-4);
  });

  it('the length has u = 32 nm with 16.75 degrees of freedom and U99 = 93 nm', () => {
    const u = root([...COMPONENTS, ...DIFFERENCE]);
    within(u, 31.6639, 5e-5);
    const freedom = effectiveFreedom([...COMPONENTS, { u: root(DIFFERENCE), freedom: effectiveFreedom(DIFFERENCE) }]);
    // 16.7 in the GUM, recomputed 16.75: half a last digit.
    within(freedom, 16.75, 0.005);
    // The GUM cuts the freedom to 16 and takes t99(16) = 2.92 from its table G.2.
    const t99 = studentQuantile(0.995, Math.floor(freedom));
    within(t99, 2.92078, 5e-6);
    within(t99 * 32, 93.465, 5e-4);
  });

  it('one component split in three has the same effective freedom as all of them at once', () => {
    const joined = { u: root(DIFFERENCE), freedom: effectiveFreedom(DIFFERENCE) };
    within(effectiveFreedom([...COMPONENTS, joined]), effectiveFreedom([...COMPONENTS, ...DIFFERENCE]), 1e-9);
  });
});

describe("Student's distribution", () => {
  test.each([
    [2, 2.92],
    [3, 2.35],
    [4, 2.13],
    [5, 2.02],
    [8, 1.86],
    [10, 1.81],
    [20, 1.72],
    [50, 1.68],
  ])('with %d degrees of freedom 5 %% lie beyond %d at one end, told from what 95 %% need at both', (freedom, t90) => {
    // JCGM 100:2008, table G.2, its column of 90 %.
    within(oneSided(studentQuantile(0.975, freedom)), t90, 0.005001);
  });

  test.each([
    [1, 12.71, 63.66],
    [2, 4.3, 9.92],
    [3, 3.18, 5.84],
    [4, 2.78, 4.6],
    [5, 2.57, 4.03],
    [6, 2.45, 3.71],
    [8, 2.31, 3.36],
    [10, 2.23, 3.17],
    [16, 2.12, 2.92],
    [20, 2.09, 2.85],
    [50, 2.01, 2.68],
  ])('with %d degrees of freedom: t95 = %d, t99 = %d', (freedom, t95, t99) => {
    // JCGM 100:2008, table G.2, two decimals.
    within(studentQuantile(0.975, freedom), t95, 0.005001);
    within(studentQuantile(0.995, freedom), t99, 0.005001);
  });

  it('has its closed forms with one and two degrees of freedom', () => {
    for (const p of [0.501, 0.6, 0.9, 0.975, 0.999]) {
      // Derived: one degree is Cauchy's distribution; two have t = a sqrt(2 / (1 - a^2)) with a = 2p - 1.
      const a = 2 * p - 1;
      within(studentQuantile(p, 1) / Math.tan((Math.PI * a) / 2), 1, 1e-9);
      within(studentQuantile(p, 2) / (a * Math.sqrt(2 / (1 - a * a))), 1, 1e-9);
    }
  });

  it('comes to the normal distribution', () => {
    // 1.959964: the normal quantile; Cornish-Fisher adds (z^3 + z) / (4 freedom) = 2.4e-6 with 1e6 degrees.
    within(studentQuantile(0.975, 1e6), 1.959964, 3e-6);
  });

  it('the part below a quantile is the part asked for, and both are symmetrical', () => {
    for (const freedom of [0.7, 1, 2.5, 7, 25.447, 300])
      for (const p of [0.01, 0.3, 0.5, 0.8, 0.99]) {
        within(studentPart(studentQuantile(p, freedom), freedom), p, 1e-10);
        within(studentQuantile(p, freedom), -studentQuantile(1 - p, freedom), 1e-7);
      }
  });

  it.each([
    [0, 5],
    [1, 5],
    [Number.NaN, 5],
    [0.9, 0],
    [0.9, Number.NaN],
    [0.9, Infinity],
  ])('refuses p = %d with %d degrees', (p, freedom) => {
    expect(() => studentQuantile(p, freedom)).toThrow(/student/);
  });
});

describe('the coverage factor', () => {
  it('is that of readings everywhere where nothing has finite freedom, and only grows from there', () => {
    expect(coverageFactor(Infinity)).toBe(COVERAGE_FACTOR);
    expect(NORMAL_COVERAGE).toBe(COVERAGE_FACTOR);
    const down = [1e6, 1e5, 1000, 60, 10, 4, 2, 1].map(coverageFactor);
    down.forEach((factor, i) => expect(factor).toBeGreaterThanOrEqual(down[i - 1] ?? COVERAGE_FACTOR));
    within(coverageFactor(4), 2.776445, 5e-7);
  });
});

describe('effective freedom', () => {
  it('is without end where all components are known, weightless, or none', () => {
    expect(effectiveFreedom([])).toBe(Infinity);
    expect(effectiveFreedom([{ u: 2, freedom: Infinity }])).toBe(Infinity);
    expect(effectiveFreedom([{ u: 0, freedom: 3 }])).toBe(Infinity);
  });

  it('lies between the smallest of its components and their sum, whatever their unit', () => {
    const list = [
      { u: 1, freedom: 4 },
      { u: 2, freedom: 7 },
      { u: 1.5, freedom: 12 },
    ];
    const freedom = effectiveFreedom(list);
    expect(freedom).toBeGreaterThanOrEqual(4);
    expect(freedom).toBeLessThanOrEqual(23);
    for (const by of [1e-120, 1e120])
      within(effectiveFreedom(list.map((one) => ({ ...one, u: one.u * by }))), freedom, 1e-9);
  });

  it('of equal components with equal freedom is their sum (derived)', () => {
    within(
      effectiveFreedom([
        { u: 3, freedom: 5 },
        { u: 3, freedom: 5 },
      ]),
      10,
      1e-12,
    );
  });

  it.each([
    [{ u: -1, freedom: 3 }],
    [{ u: Number.NaN, freedom: 3 }],
    [{ u: Infinity, freedom: 3 }],
    [{ u: 1, freedom: 0 }],
    [{ u: 1, freedom: Number.NaN }],
  ])('refuses %j', (component) => {
    expect(() => effectiveFreedom([component])).toThrow(/components/);
  });
});
