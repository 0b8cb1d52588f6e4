import { freedomOfCoverage, studentPart } from '../measure/uncertainty/freedom.ts';
import { LEVEL, oneSided } from '../measure/uncertainty/levels.ts';
import { isOfUse } from '../measure/doubts/of-use.ts';
import type { ChainLink, Goals } from '../model/goals.ts';
import { sameReading } from '../model/reading.ts';
import type { Comparison, ReadingKey, Verdict } from '../model/reading.ts';

/** A difference as a verdict needs it, in one unit. */
export interface Difference {
  readonly difference: number;
  /** Standard uncertainty, > 0. */
  readonly u: number;
  /** The 95 % interval is this many u either side. */
  readonly coverage: number;
  /** So much counts as no difference; null = nothing is known of that. */
  readonly tolerance: number | null;
}

/**
 * A reading that was on trial beforehand. `changed`: the difference is outside of its own 95 % interval round 0. `no change`:
 * two one-sided tests, 5 % each, refuse both that it is more than the tolerance and that it is less than minus it
 * (D. J. Schuirmann, J. Pharmacokin. Biopharm. 15 (1987) 657-680): |d| + 1.645 u is under the tolerance. Else can't tell.
 */
export function verdictOnTrial(given: Difference): Verdict {
  const { difference, u, coverage } = given;
  if (Math.abs(difference) > coverage * u) return 'changed';
  return isEquivalent(given) ? 'no change' : "can't tell";
}

/** Whether the 90 % interval lies within the tolerance, which is what two one-sided tests at 5 % come to. */
export function isEquivalent({ difference, u, coverage, tolerance }: Difference): boolean {
  // A difference as large as the tolerance never is, however sure: most are, and Student's quantile is dear.
  if (tolerance === null || Math.abs(difference) >= tolerance) return false;
  return Math.abs(difference) + oneSided(coverage) * u < tolerance;
}

/**
 * Of all that no question was asked of: which differences are worth a look. On the average at most 5 % of those named so are
 * none. Where nothing changed at all, nothing is named in 95 % of comparisons.
 */
export function verdictsScreened(given: readonly Difference[]): readonly Verdict[] {
  const found = withFalseDiscoveryRate(given.map(chanceOf), LEVEL);
  return given.map((each, i) => {
    if (found[i] === true) return 'worth a look';
    return isEquivalent(each) ? 'no change' : "can't tell";
  });
}

/**
 * How often a difference as large comes about where there is none, 0 to 1, both signs counted: by Student's distribution whose
 * 95 % the coverage holds. Far out its tails are much heavier than a normal one's that is as wide, and far out is where many
 * tests at once look.
 */
export function chanceOf({ difference, u, coverage }: Difference): number {
  if (u === 0) return difference === 0 ? 1 : 0;
  const t = -Math.abs(difference) / u;
  return 2 * studentPart(t, Math.min(freedomOfCoverage(coverage), NORMAL_FREEDOM));
}

/** Freedom at which Student's distribution is the normal one, to 1e-5 of a tail as far out as 4. */
const NORMAL_FREEDOM = 1e6;

/**
 * Which of several tests may be called found so that the expected part of false ones among them is `rate` at most: the
 * largest k with p(k) <= k rate / m, and all of smaller p (Y. Benjamini & Y. Hochberg, J. Roy. Stat. Soc. B 57 (1995)
 * 289-300). In the order given.
 */
export function withFalseDiscoveryRate(chances: readonly number[], rate: number): readonly boolean[] {
  const sorted = chances.toSorted((one, other) => one - other);
  let limit = -1;
  for (const [k, chance] of sorted.entries()) if (chance <= ((k + 1) * rate) / chances.length) limit = chance;
  return chances.map((chance) => chance <= limit);
}

/** A comparison before its verdict. */
export type Unjudged = Omit<Comparison, 'verdict'>;

/**
 * Verdicts on all comparisons of two swings: those on trial each by itself, the others screened together, as far as both of
 * their numbers are of any use; in the order given.
 */
export function judged(comparisons: readonly Unjudged[]): readonly Comparison[] {
  const isScreened = (each: Unjudged) => !each.isOnTrial && isOfUse(each.then) && isOfUse(each.now);
  const screened = comparisons.filter(isScreened);
  const found = new Map(verdictsScreened(screened).map((verdict, i) => [screened[i], verdict]));
  return comparisons.map((each) => {
    if (each.isOnTrial) return { ...each, verdict: verdictOnTrial(each) };
    return { ...each, verdict: found.get(each) ?? "can't tell" };
  });
}

/**
 * Whether a reading is on trial: chosen for the stills by the coach, or a link of a chain of the goals. A few; all others are
 * looked at because they are there.
 */
export function isOnTrial(key: ReadingKey, pins: readonly ReadingKey[], { chains }: Pick<Goals, 'chains'>): boolean {
  const isLink = ({ reading, aspect, view, checkpoint }: ChainLink) =>
    sameReading({ id: reading, aspect, view, checkpoint }, key);
  return pins.some((pin) => sameReading(pin, key)) || chains.some(({ links }) => links.some(isLink));
}
