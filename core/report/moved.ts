import type { Verdict } from '../model/reading.ts';
import type { LessonReport } from './lesson-report.ts';
import type { ShownComparison } from './shown-reading.ts';

/** What became of all that is worth comparing. */
export interface MovedSummary {
  /** The clearest first: by how many of its ± a reading moved. */
  readonly moved: readonly ShownComparison[];
  readonly held: number;
  readonly unsure: number;
}

export function movedIn({ comparisons }: Pick<LessonReport, 'comparisons'>): MovedSummary {
  const of = (verdict: Verdict) => comparisons.filter(({ comparison }) => comparison.verdict === verdict);
  const clearness = ({ comparison: { difference, coverage, u } }: ShownComparison) =>
    Math.abs(difference) / (coverage * u);
  return {
    moved: of('moved').toSorted((one, other) => clearness(other) - clearness(one)),
    held: of('held').length,
    unsure: of("can't tell").length,
  };
}
