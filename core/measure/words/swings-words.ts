import { say } from '../../model/say.ts';
import type { Comparison, MeasuredReading } from '../../model/reading.ts';
import { formatSize, labelOf, listed } from './format.ts';

/** How many swings stand behind a comparison, in words: for the coach, and in short for the student. */

const countOf = ({ swings }: MeasuredReading): number => swings?.values.length ?? 1;

/** "mean of 3 swings"; null for a number of one swing. */
export function meanWords(reading: MeasuredReading): string | null {
  const count = countOf(reading);
  return count === 1 ? null : say`mean of ${String(count)} swings`;
}

/** What the swings of both lessons are good for, as sentences; of one day nothing is to be said. */
export function swingsWords(comparison: Comparison): string | null {
  const { then, now, showsWithThree, unit } = comparison;
  const [before, after] = [countOf(then), countOf(now)];
  const many = say`Means of ${counted(before)} then and ${counted(after)} now.`;
  if (showsWithThree === null) return before === 1 && after === 1 ? null : many;
  const three = formatSize(showsWithThree, unit);
  const scatter =
    before === 1 && after === 1
      ? say`One swing each: how far this player’s own swings lie apart is not known, and assumed.`
      : many;
  return say`${scatter} With three swings a lesson, a change of ${three} or more would show.`;
}

/** The same of a whole sheet, for its head: the least and the most that stand behind its comparisons. */
export function lessonsWords(comparisons: readonly Comparison[]): string | null {
  const between = comparisons.filter(({ showsWithThree, then, now }) => showsWithThree !== null || isMean(then, now));
  if (between.length === 0) return null;
  const [then, now] = (['then', 'now'] as const).map((which) =>
    Math.max(...between.map((each) => countOf(each[which]))),
  );
  if (then === undefined || now === undefined) return null;
  if (then === 1 && now === 1)
    return say`One swing each: a player’s swings differ by themselves. Three swings a lesson would tell more.`;
  const few = Math.min(then, now) < 3 ? say` Three a lesson would tell more.` : '';
  return say`Means of ${counted(then)} then and ${counted(now)} now, where they are marked.${few}`;
}

/** For a still: what then and now stand for. */
export function lessonsWordsOnStills(comparisons: readonly Comparison[]): string | null {
  if (lessonsWords(comparisons) === null) return null;
  return comparisons.some(({ then, now }) => isMean(then, now))
    ? say`Then and now are means of several swings; the ± holds how far they lie apart.`
    : say`One swing each: the ± allows for how far a player’s swings lie apart.`;
}

const isMean = (then: MeasuredReading, now: MeasuredReading): boolean => countOf(then) > 1 || countOf(now) > 1;
const counted = (count: number): string => (count === 1 ? say`one swing` : say`${String(count)} swings`);

/** Which swings of a lesson lie far off its others, and in what: a sentence for each, for the coach. */
export function oddSwingWords(comparisons: readonly Comparison[]): readonly string[] {
  return (['then', 'now'] as const).flatMap((which) => {
    const odd = new Map<string, string[]>();
    for (const comparison of comparisons)
      for (const label of comparison[which].swings?.odd ?? [])
        odd.set(label, [...(odd.get(label) ?? []), labelOf(comparison)]);
    return [...odd].map(([label, readings]) =>
      which === 'then'
        ? say`${label} of then lies far off the other swings of its lesson: ${listed([...new Set(readings)])}. Check its marks; it counts in the means as it is.`
        : say`${label} of now lies far off the other swings of its lesson: ${listed([...new Set(readings)])}. Check its marks; it counts in the means as it is.`,
    );
  });
}
