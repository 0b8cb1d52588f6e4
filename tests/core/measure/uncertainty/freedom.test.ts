import { expect, it } from 'vitest';
import { coverageFactor, effectiveFreedom, freedomOfCoverage } from '../../../../core/measure/uncertainty/freedom.ts';
import { withinSubject } from '../../../../core/measure/repeat/within-subject.ts';
import { seeded } from '../../../../core/measure/uncertainty/seeded.ts';
import { within } from '../../../support/within.ts';

const TRIALS = 20_000;
/** A share of 0.95 counted in so many trials is off by sqrt(0.95 x 0.05 / trials) = 0.0015; four of them. */
const SCATTER = 4 * Math.sqrt((0.95 * 0.05) / TRIALS);

/** How often an error of the hand lies within `factor` deviations, found each time from `pairs` placed twice. */
function shareHeld(pairs: number, factor: (freedom: number) => number, seed: number): number {
  const numbers = seeded(seed);
  let held = 0;
  for (let trial = 0; trial < TRIALS; trial += 1) {
    const spread = withinSubject(Array.from({ length: pairs }, () => [numbers.normal(), numbers.normal()]));
    if (spread !== null && Math.abs(numbers.normal()) <= factor(spread.freedom) * spread.sd) held += 1;
  }
  return held / TRIALS;
}

it.each([2, 4, 8, 30])(
  'with the error from %i pairs, 95 %% hold only with the factor of its freedom (seed 11)',
  (pairs) => {
    within(shareHeld(pairs, coverageFactor, 11), 0.95, SCATTER);
    const normal = shareHeld(pairs, () => coverageFactor(Infinity), 11);
    if (pairs <= 8) expect(normal).toBeLessThan(0.95 - SCATTER);
  },
);

it('two hands known from few pairs together: the effective freedom holds 95 % or a little more (seed 12)', () => {
  const numbers = seeded(12);
  let held = 0;
  for (let trial = 0; trial < TRIALS; trial += 1) {
    const [a, b] = [4, 6].map((pairs) =>
      withinSubject(Array.from({ length: pairs }, () => [numbers.normal(), numbers.normal()])),
    );
    if (!a || !b) throw new Error('pairs repeat');
    const freedom = effectiveFreedom([
      { u: a.sd, freedom: a.freedom },
      { u: b.sd, freedom: b.freedom },
    ]);
    if (Math.abs(numbers.normal() + numbers.normal()) <= coverageFactor(freedom) * Math.hypot(a.sd, b.sd)) held += 1;
  }
  // Welch and Satterthwaite's formula is an approximation, good to about half a per cent here.
  within(held / TRIALS, 0.95, SCATTER + 0.005);
});

it('grows smoothly into the normal quantile: a factor for every freedom, however large, and never a jump', () => {
  const freedoms = Array.from({ length: 64 }, (_, i) => 10 ** (i / 4));
  const factors = [...freedoms, 1e6 + 1, 1e300, Infinity].map(coverageFactor);
  for (const [i, factor] of factors.entries()) {
    expect(factor).toBeGreaterThanOrEqual(1.96);
    if (i > 0 && i < freedoms.length) expect(factor).toBeLessThanOrEqual(factors[i - 1] ?? 0);
  }
  // The tabled 1.959964, as this program rounds it.
  for (const freedom of [1e6, 1e6 * (1 + 1e-15), 2e6, 1e12, Infinity]) within(coverageFactor(freedom), 1.96, 1e-5);
});

it('is told by the factor that it needs, and is endless at the normal one and below', () => {
  for (const freedom of [0.5, 1, 2.5, 12, 300, 1e4])
    within(freedomOfCoverage(coverageFactor(freedom)) / freedom, 1, 1e-5, `freedom ${String(freedom)}`);
  for (const factor of [0, 1.9, 1.96]) expect(freedomOfCoverage(factor)).toBe(Infinity);
});
