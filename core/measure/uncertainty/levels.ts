import { NORMAL_COVERAGE, freedomOfCoverage, studentQuantile } from './freedom.ts';
import { normalQuantile } from './normal-quantile.ts';

/** Of 20 differences that are none, one is called a change; of 20 that are called one, one is none. */
export const LEVEL = 0.05;

/** Of 5 changes of the smallest size that shows, 4 are seen. */
export const POWER = 0.8;

/**
 * u either side for 5 % at one end: 1.645. `coverage`: u either side of the 95 % interval; where that is widened for few
 * repeats, this is Student's quantile of as many degrees of freedom. It grows less than the coverage does: 1.86 for 2.31.
 */
export function oneSided(coverage: number): number {
  const freedom = freedomOfCoverage(coverage);
  return freedom > MOST_FREEDOM ? normalQuantile(1 - LEVEL) : studentQuantile(1 - LEVEL, freedom);
}

/** From here on Student's quantile is the normal one to 1e-5. */
const MOST_FREEDOM = 1e5;

/** The smallest change that would show in a difference so sure, at 5 % and with 80 % power: (1.96 + 0.84) u. */
export function smallestShown(u: number, coverage: number): number {
  return (coverage + (normalQuantile(POWER) * coverage) / NORMAL_COVERAGE) * u;
}
