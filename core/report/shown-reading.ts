import { say } from '../model/say.ts';
import { smallestChange } from '../compare/smallest-change.ts';
import { questionOf } from '../measure/doubts/plausible.ts';
import { meanWords, swingsWords } from '../measure/words/swings-words.ts';
import type { Figures } from '../measure/words/figures.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import {
  formatSize,
  idleWords,
  labelOf,
  missingWords,
  smallestWords,
  VERDICT_MEANINGS,
  VERDICT_WORDS,
} from '../measure/words/format.ts';
import type { Comparison, MeasuredReading, MissingReading } from '../model/reading.ts';

/** A reading as people see it, on the sheet, the bench, stills and the command line alike. */
export interface ShownReading {
  readonly reading: MeasuredReading;
  readonly label: string;
  /** With unit and ±. */
  readonly number: string;
  /** null where the number says it all. */
  readonly meaning: string | null;
  /** What the coach is asked of a number that can hardly be right, else null. Never on a still: a student cannot answer. */
  readonly question: string | null;
}

/** The smallest change between two lessons that would show in a reading, as a sentence; null for what is never compared. */
export function smallestChangeWords(reading: MeasuredReading, placing?: PlacingErrors): string | null {
  const smallest = smallestChange(reading, placing);
  if (smallest === null) return null;
  const [one, three] = [smallest.one, smallest.three].map((size) => formatSize(size, reading.unit));
  return say`Between two lessons a change of ${one ?? ''} or more would show; with three swings a lesson, ${three ?? ''}.`;
}

/** The difference of then and now as people see it. */
export interface ShownComparison {
  readonly comparison: Comparison;
  readonly label: string;
  readonly then: string;
  readonly now: string;
  /** "mean of 3 swings", of then and of now; null for one swing. */
  readonly means: { readonly then: string | null; readonly now: string | null };
  readonly difference: string;
  readonly verdict: string;
  /** Why it is that verdict, where the numbers alone do not show it; else null. For the coach. */
  readonly close: string | null;
  /** What such a verdict means, and the smallest change that would show, as sentences. */
  readonly meaning: string;
}

/** A reading without a number worth showing: why, and what to do, or what the coach is asked of it. */
export interface UnreadReading {
  readonly reading: MeasuredReading | MissingReading;
  readonly label: string;
  readonly words: string;
}

export function shownReading(reading: MeasuredReading, figures: Figures): ShownReading {
  return {
    reading,
    label: labelOf(reading),
    number: figures.reading(reading).text,
    meaning: figures.meaning(reading),
    question: questionOf(reading),
  };
}

export function shownComparison(comparison: Comparison, figures: Figures): ShownComparison {
  const { then, now, difference, close } = figures.comparison(comparison);
  return {
    comparison,
    label: labelOf(comparison),
    ...{ then: then.text, now: now.text, difference: difference.text },
    means: { then: meanWords(comparison.then), now: meanWords(comparison.now) },
    verdict: VERDICT_WORDS[comparison.verdict],
    close,
    meaning: [VERDICT_MEANINGS[comparison.verdict], smallestWords(comparison), swingsWords(comparison)]
      .filter((sentence) => sentence !== null)
      .join(' '),
  };
}

/** Of one that is missing, or whose number is of no use. */
export function unreadReading(reading: MeasuredReading | MissingReading): UnreadReading {
  const words = reading.state === 'missing' ? missingWords(reading) : (questionOf(reading) ?? idleWords(reading));
  return { reading, label: labelOf(reading), words };
}

/** The verdict with the reason beside it, where one is needed: "no change (at most 4.92°, tolerance 5°)". */
export function verdictWithReason({ verdict, close }: ShownComparison): string {
  return close === null ? verdict : `${verdict} (${close})`;
}
