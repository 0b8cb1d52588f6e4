import { say } from '../model/say.ts';
import { compareSwings } from '../compare/compare-swings.ts';
import { comparisonsOfUse, readingsOfUse } from '../measure/doubts/of-use.ts';
import type { Goals } from '../measure/goals/goals.ts';
import { withdrawnAskedFor } from '../measure/readings/asked-for.ts';
import { readSwing } from '../measure/readings/read-swing.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { figuresOf, type Figures } from '../measure/words/figures.ts';
import { lessonsWords, oddSwingWords } from '../measure/words/swings-words.ts';
import { questionsAbout } from '../measure/words/question-words.ts';
import type { Comparison, Reading } from '../model/reading.ts';
import type { MarkedSwing } from '../model/swing.ts';
import { shownComparison, type ShownComparison } from './shown-reading.ts';

export interface ReportSource {
  readonly now: MarkedSwing;
  /** The earlier swing, or null for one swing alone. */
  readonly then: MarkedSwing | null;
  /** Whose tolerances say that a difference is none. */
  readonly goals: Goals;
  /** Of the hand that placed the points; left out = assumed. */
  readonly placing?: PlacingErrors;
}

/**
 * What a lesson shows: of one swing, or of then and now. Made from marks alone. Window, stills and command line render it;
 * none of them chooses, rounds or words anything itself. What stands in one cell is in cell.ts, on one still in stills.ts.
 */
export interface LessonReport {
  readonly source: ReportSource;
  /** All that can be read, missing ones and such of no use too; at the end what is asked for and no longer made. */
  readonly now: readonly Reading[];
  /** The same of then; empty for one swing alone. */
  readonly then: readonly Reading[];
  /** Those of use, in the order of now's readings. */
  readonly comparisons: readonly ShownComparison[];
  /** How many more can be compared and tell nothing, because one of the two numbers does not. */
  readonly idleComparisons: number;
  /** How many swings stand behind the comparisons, as a sentence; null without any, and where both are of one day. */
  readonly swings: string | null;
  /** The digits of all that is seen together. */
  readonly figures: Figures;
  /** What the marks of both contradict, to be asked of the coach. */
  readonly questions: readonly string[];
  /** What makes then and now hard to compare, for the coach; and what of it a student should know. */
  readonly warnings: readonly string[];
  readonly stillWarnings: readonly string[];
}

/** What a report is made of: plain values, which pass from thread to thread. The costly half of it. */
export interface Measured extends Pick<LessonReport, 'now' | 'then' | 'questions' | 'warnings' | 'stillWarnings'> {
  readonly comparisons: readonly Comparison[];
}

export const reportOf = (source: ReportSource): LessonReport => reportFrom(source, measure(source));

/** Reads and compares. */
export function measure({ now, then, goals, placing }: ReportSource): Measured {
  const compared = then === null ? NOTHING_COMPARED : compareSwings(then, now, goals, placing);
  const thenQuestions = then === null ? [] : questionsAbout(then, placing);
  return {
    now: [...readSwing(now, placing), ...withdrawnAskedFor(now, goals)],
    then: then === null ? [] : readSwing(then, placing),
    ...compared,
    questions: [...questionsAbout(now, placing), ...thenQuestions.map((question) => say`Then, ${question}`)],
  };
}

/** Decides what of it is shown, and how. `source` is what it was measured from. */
export function reportFrom(source: ReportSource, { comparisons, ...measured }: Measured): LessonReport {
  const ofUse = comparisonsOfUse(comparisons);
  const figures = figuresOf([readingsOfUse(measured.then), readingsOfUse(measured.now)], ofUse);
  return {
    ...{ source, ...measured, figures },
    comparisons: ofUse.map((comparison) => shownComparison(comparison, figures)),
    idleComparisons: comparisons.length - ofUse.length,
    swings: lessonsWords(ofUse),
    warnings: [...measured.warnings, ...oddSwingWords(ofUse)],
  };
}

const NOTHING_COMPARED = { comparisons: [], warnings: [], stillWarnings: [] } as const;
