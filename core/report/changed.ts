import type { Verdict } from '../model/reading.ts';
import type { LessonReport } from './lesson-report.ts';
import type { ShownComparison } from './shown-reading.ts';

/** What became of all that is worth comparing. */
export interface ChangedSummary {
  /** Of what was on trial, the clearest first: by how many of its ± a reading changed. */
  readonly changed: readonly ShownComparison[];
  /** Of what was screened, in the same order. */
  readonly worthALook: readonly ShownComparison[];
  readonly same: number;
  readonly unsure: number;
}

export function changedIn({ comparisons }: Pick<LessonReport, 'comparisons'>): ChangedSummary {
  const of = (verdict: Verdict) => comparisons.filter(({ comparison }) => comparison.verdict === verdict);
  const clearness = ({ comparison: { difference, coverage, u } }: ShownComparison) =>
    Math.abs(difference) / (coverage * u);
  const clearest = (verdict: Verdict) => of(verdict).toSorted((one, other) => clearness(other) - clearness(one));
  return {
    changed: clearest('changed'),
    worthALook: clearest('worth a look'),
    same: of('no change').length,
    unsure: of("can't tell").length,
  };
}
