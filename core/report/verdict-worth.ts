import { inFigures } from '../model/language.ts';
import { lowered, say } from '../model/say.ts';
import content from '../../resources/verdicts.json' with { type: 'json' };
import { formatTyped, formatSize, labelOf } from '../measure/words/format.ts';
import { dayInWords } from '../model/day-in-words.ts';
import { sameReading } from '../model/reading.ts';
import type { ReadingAspect, ReadingId, ReadingKey, Unit } from '../model/reading.ts';
import { CHECKPOINT_LABELS } from '../model/words.ts';

/**
 * How often a change of some size is seen, with the right sign and with the wrong one. `oracle`: by who knows its true scatter;
 * `unsure`: by who knows all of it but how far this player's swings lie apart.
 */
interface Power extends ReadingKey {
  readonly unit: Unit;
  readonly change: number;
  readonly seen: number;
  readonly unsure: number;
  readonly oracle: number;
  readonly wrong: number;
}

/** What verdicts are worth with so many swings a lesson. All parts are of 1. */
export interface LessonsWorth {
  readonly swings: number;
  /** Single readings whose ± holds the truth: on the average, of the least one, and how many of them hold under 92 %. */
  readonly held: { readonly mean: number; readonly least: number; readonly readings: number; readonly low: number };
  /** "changed" though nothing did: on the average, of the worst reading, and for how many more than 6 %. */
  readonly changed: { readonly mean: number; readonly most: number; readonly high: number };
  /** Comparisons with anything "worth a look" though nothing changed. */
  readonly worthALook: number;
  readonly noChange: { readonly said: number; readonly unsure: number; readonly oracle: number };
  readonly power: readonly Power[];
}

/** What `npm run power -- --keep` found, as it writes it. */
export interface VerdictWorth {
  /** ISO 8601. */
  readonly date: string;
  /** Of lessons, each with everything set up anew. */
  readonly pairs: number;
  readonly lessons: readonly LessonsWorth[];
  /** The smallest change that shows in a reading, the median of its checkpoints. */
  readonly smallest: readonly {
    readonly reading: ReadingId;
    readonly aspect: ReadingAspect;
    readonly unit: Unit;
    readonly one: number;
    readonly three: number;
  }[];
}

/** A file of ours, written by `npm run power`; a test holds it to its shape. */
export const VERDICT_WORTH = content as VerdictWorth;

/** A table as texts: a head, and rows of as many cells. */
export interface WorthTable {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

const percent = (part: number, decimals = 0): string => `${inFigures((100 * part).toFixed(decimals))} %`;
const swingsInWords = (count: number): string => (count === 1 ? say`1 swing` : say`${String(count)} swings`);

/** How often a ± holds and how often something is said of nothing, by the number of swings a lesson. */
export function honestyTable({ lessons }: VerdictWorth): WorthTable {
  const row = (label: string, of: (each: LessonsWorth) => string) => [label, ...lessons.map(of)];
  return {
    head: [say`A lesson has`, ...lessons.map(({ swings }) => swingsInWords(swings))],
    rows: [
      row(say`The ± of a reading holds the truth`, ({ held }) => percent(held.mean, 1)),
      row(say`the same of the reading where it holds least`, ({ held }) => percent(held.least, 1)),
      row(say`Nothing changed, yet “changed”`, ({ changed }) => percent(changed.mean, 1)),
      row(say`the same of the reading where it is said most`, ({ changed }) => percent(changed.most, 1)),
      row(say`Nothing changed, yet something “worth a look”`, ({ worthALook }) => percent(worthALook, 1)),
      row(
        say`Nothing changed, and “no change” is said`,
        ({ noChange }) =>
          `${percent(noChange.said, 1)} (${percent(noChange.unsure, 1)}, ${percent(noChange.oracle, 1)})`,
      ),
    ],
  };
}

/** How often a change of some size is seen; in brackets by who does not know the player's scatter but all else, and by who knows all. */
export function powerTable({ lessons }: VerdictWorth): WorthTable {
  const [first] = lessons;
  return {
    head: [say`A change of`, ...lessons.map(({ swings }) => swingsInWords(swings))],
    rows: (first?.power ?? []).map((asked) => [
      say`${labelOf(asked)} at ${lowered(CHECKPOINT_LABELS[asked.checkpoint])}, ${formatTyped(asked.change, asked.unit)}`,
      ...lessons.map(({ power }) => {
        const same = power.find((each) => sameReading(each, asked) && each.change === asked.change);
        return same === undefined ? '' : `${percent(same.seen)} (${percent(same.unsure)}, ${percent(same.oracle)})`;
      }),
    ]),
  };
}

/** When and how it was tried, and how sure a count is. */
export function triedWords({ date, pairs }: VerdictWorth): string {
  const sure = Math.round(196 * Math.sqrt((0.05 * 0.95) / pairs));
  return say`Tried on ${dayInWords(date)} against a body in space that the program does not know: ${String(pairs)} pairs of lessons, cameras set up anew, ground marks, clicks of 3 px, joints 10 mm off, swings 2° and 1 cm apart. A count near 95 % is known to ${String(sure)} %. In brackets: what would be seen by who knew all but this player’s scatter, and by who knew that too.`;
}

/** What change of a reading shows as a rule, for the goals; null where it was not tried in that unit. */
export function usualSmallestWords(reading: ReadingId, aspect: ReadingAspect, unit: Unit): string | null {
  const found = VERDICT_WORTH.smallest.find(
    (each) => each.reading === reading && each.aspect === aspect && each.unit === unit,
  );
  if (found === undefined) return null;
  const text = (size: number): string => formatSize(size, unit);
  return say`As a rule a change of ${text(found.one)} shows, with three swings a lesson one of ${text(found.three)}.`;
}
