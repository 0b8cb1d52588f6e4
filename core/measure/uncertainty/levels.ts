import { NORMAL_COVERAGE } from './freedom.ts';
import { normalQuantile } from './normal-quantile.ts';

/** Of 20 differences that are none, one is called a change; of 20 that are called one, one is none. */
export const LEVEL = 0.05;

/** Of 5 changes of the smallest size that shows, 4 are seen. */
export const POWER = 0.8;

/**
 * u either side for 5 % at one end: 1.645. `coverage`: u either side of the 95 % interval; where that is widened for few
 * repeats, so is this.
 */
export function oneSided(coverage: number): number {
  return (normalQuantile(1 - LEVEL) * coverage) / NORMAL_COVERAGE;
}

/** The smallest change that would show in a difference so sure, at 5 % and with 80 % power: (1.96 + 0.84) u. */
export function smallestShown(u: number, coverage: number): number {
  return (coverage + (normalQuantile(POWER) * coverage) / NORMAL_COVERAGE) * u;
}
