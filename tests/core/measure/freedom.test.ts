import { expect, it } from 'vitest';
import { coverageFactor, effectiveFreedom } from '../../../core/measure/freedom.ts';
import { withinSubject } from '../../../core/measure/repeat/within-subject.ts';
import { seeded } from '../../../core/measure/seeded.ts';
import { within } from '../../support/within.ts';

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
