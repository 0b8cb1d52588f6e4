import type { Verdict } from '../model/reading.ts';
import type { LessonReport } from './lesson-report.ts';
import type { ShownComparison } from './shown-reading.ts';

/** What became of all that is worth comparing. */
export interface ChangedSummary {
  /** Of what was on trial, the clearest first. */
  readonly changed: readonly ShownComparison[];
  /** Of what was screened, in the same order. */
  readonly worthALook: readonly ShownComparison[];
  readonly same: number;
  readonly unsure: number;
}

export function changedIn({ comparisons }: Pick<LessonReport, 'comparisons'>): ChangedSummary {
  const of = (verdict: Verdict) => comparisons.filter(({ comparison }) => comparison.verdict === verdict);
  return {
    changed: byClearness(of('changed')),
    worthALook: byClearness(of('worth a look')),
    same: of('no change').length,
    unsure: of("can't tell").length,
  };
}

/** The clearest first: by how many of its ± a reading changed. */
export function byClearness(comparisons: readonly ShownComparison[]): readonly ShownComparison[] {
  const clearness = ({ comparison: { difference, coverage, u } }: ShownComparison) =>
    Math.abs(difference) / (coverage * u);
  return comparisons.toSorted((one, other) => clearness(other) - clearness(one));
}
