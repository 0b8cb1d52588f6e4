import { say, loweredFirst } from '../model/say.ts';
import { fullLabelOf } from '../measure/words/format.ts';
import type { Comparison, ReadingKey, UncertaintySource } from '../model/reading.ts';
import { changedIn } from './changed.ts';
import { bareNumber, fromToWords } from './headline.ts';
import type { LessonReport } from './lesson-report.ts';
import type { ShownComparison } from './shown-reading.ts';

/** One change, and where it is seen. */
export interface ChangeSentence {
  /** The reading; null for the sentence that nothing changed. */
  readonly key: ReadingKey | null;
  /** With its number: "Shoulders to spine at top, down the line: 105° → 91°, 14° less". */
  readonly words: string;
}

/** What a comparison says in words: what changed, then in a line each what did not and what nobody can tell. */
export interface WhatChanged {
  /** One to three, the clearest first. */
  readonly sentences: readonly ChangeSentence[];
  /** "No change in 2: trail knee at address, face on; ..."; null where nothing stayed for sure. */
  readonly noChange: string | null;
  /** How many nobody can tell, and what would make them tellable; null where there are none. */
  readonly cantTell: string | null;
}

/** More would be a list again. */
const MOST_SENTENCES = 3;
/** So many ways to tell more are named. */
const MOST_WAYS = 2;

/** null where nothing can be compared. */
export function whatChanged({ comparisons }: Pick<LessonReport, 'comparisons'>): WhatChanged | null {
  if (comparisons.length === 0) return null;
  const { changed, worthALook } = changedIn({ comparisons });
  const found = onePerReading([...changed, ...worthALook]).slice(0, MOST_SENTENCES);
  const of = (verdict: Comparison['verdict']) => comparisons.filter(({ comparison }) => comparison.verdict === verdict);
  const [same, unsure] = [of('no change'), of("can't tell")];
  return {
    sentences: found.length === 0 ? [{ key: null, words: say`Nothing changed for sure` }] : found.map(sentenceOf),
    noChange:
      same.length === 0
        ? null
        : say`No change in ${String(same.length)}: ${same.map(({ comparison }) => loweredFirst(fullLabelOf(comparison))).join('; ')}.`,
    cantTell: unsure.length === 0 ? null : cantTellWords(unsure.map(({ comparison }) => comparison)),
  };
}

/** A reading and its change from address say the same thing twice: the clearer one stays. */
function onePerReading(comparisons: readonly ShownComparison[]): readonly ShownComparison[] {
  const placeOf = ({ comparison: { id, view, checkpoint } }: ShownComparison) => `${id} ${view} ${checkpoint}`;
  return comparisons.filter(
    (each, index) => comparisons.findIndex((other) => placeOf(other) === placeOf(each)) === index,
  );
}

function sentenceOf({ comparison, then, now, difference }: ShownComparison): ChangeSentence {
  const { id, aspect, view, checkpoint } = comparison;
  const by = bareNumber(difference);
  const amount = by.replace(/^[+−]/, '');
  const told = by.startsWith('−') ? say`${amount} less` : say`${amount} more`;
  const look = comparison.verdict === 'worth a look' ? say`: worth a look` : '';
  return {
    key: { id, aspect, view, checkpoint },
    words: `${fullLabelOf(comparison)}: ${fromToWords(then, now)}, ${told}${look}`,
  };
}

/** What would tell more, by what most of a ± comes from. Errors of few swings are told by `showsWithThree`. */
const WAYS: Readonly<Partial<Record<UncertaintySource, string>>> = {
  camera: say`mark the ground in both clips`,
  plumb: say`mark a plumb line in both clips`,
  placing: say`zoom in to place the points, and do a repeat check`,
  naming: say`name the frames again with care`,
  time: say`film with more frames a second`,
  head: say`draw a box close round head and cap`,
};
const MORE_SWINGS = say`mark three swings of each lesson`;

function cantTellWords(unsure: readonly Comparison[]): string {
  const counts = new Map<string, number>();
  const count = (way: string | undefined): void => {
    if (way !== undefined) counts.set(way, (counts.get(way) ?? 0) + 1);
  };
  for (const comparison of unsure) {
    if (comparison.showsWithThree !== null) count(MORE_SWINGS);
    count(WAYS[largestSource(comparison) ?? 'definition']);
  }
  const ways = [...counts]
    .toSorted(([, one], [, other]) => other - one)
    .slice(0, MOST_WAYS)
    .map(([way]) => way);
  const told = say`Can't tell in ${String(unsure.length)}.`;
  return ways.length === 0 ? told : say`${told} To tell more, ${ways.join(say`; or `)}.`;
}

/** Where most of the ± of both comes from; null where both are means, which have no parts. */
function largestSource({ then, now }: Comparison): UncertaintySource | null {
  const parts = [...then.budget, ...now.budget];
  const largest = parts.reduce<{
    readonly source: UncertaintySource | null;
    readonly u: number;
  }>((most, part) => (part.u > most.u ? part : most), { source: null, u: 0 });
  return largest.source;
}
