import { NORMAL_COVERAGE, freedomOfCoverage, studentPart } from '../../core/measure/uncertainty/freedom.ts';
import { oneSided } from '../../core/measure/uncertainty/levels.ts';
import { normalQuantile } from '../../core/measure/uncertainty/normal-quantile.ts';

/** Who knows more than a program can: what verdicts are held against. */

/** The normal distribution's part below z. */
const normalPart = (z: number): number => studentPart(z, 1e6);

/**
 * How often a change of that size is seen, right sign or wrong, by who knows the true standard deviation of a difference.
 * `coverage`: he knows it, but must judge by as many of it either side.
 */
export function oraclePower(change: number, sd: number, coverage = NORMAL_COVERAGE): number {
  return normalPart(change / sd - coverage) + normalPart(-change / sd - coverage);
}

/** So many equal parts of a distribution stand for it. */
const PARTS = 200;

/**
 * The same of who knows all but how far this player's swings lie apart. He knows as many degrees of freedom of it as stand behind
 * the coverage, and judges at the same level. Of one swing each his standard deviation is the assumed one. Of more, it is
 * estimated: the noncentral t, as a mean over that estimate (its square's distribution by E. B. Wilson & M. M. Hilferty, Proc.
 * Nat. Acad. Sci. 17 (1931) 684).
 */
export function unsurePower(change: number, sd: number, coverage: number, swings: number): number {
  const freedom = freedomOfCoverage(coverage);
  if (swings === 1 || freedom === Infinity) return oraclePower(change, sd, coverage);
  const sum = Array.from({ length: PARTS }, (_, i) => {
    const off = 2 / (9 * freedom);
    const estimated = Math.max(0, 1 - off + normalQuantile((i + 0.5) / PARTS) * Math.sqrt(off)) ** 1.5;
    return oraclePower(change, sd, coverage * estimated);
  }).reduce((all, each) => all + each, 0);
  return sum / PARTS;
}

/**
 * How often he can say "no change" where there is none. `coverage`: of one who has the true standard deviation but must judge as
 * if it were as unsure as the player's scatter is.
 */
export function oracleEquivalence(tolerance: number, sd: number, coverage = NORMAL_COVERAGE): number {
  const room = tolerance / sd - oneSided(coverage);
  return room <= 0 ? 0 : 2 * normalPart(room) - 1;
}
