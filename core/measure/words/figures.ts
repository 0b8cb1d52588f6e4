import type { Comparison, MeasuredReading } from '../../model/reading.ts';
import { sameReading } from '../../model/reading.ts';
import {
  decimalsFor,
  halfOf,
  meaningOf,
  mostDecimalsFor,
  rounded,
  roundedHalf,
  write,
  type Written,
} from './format.ts';

/** How numbers are written that people see together, so that whoever does a sum finds it right. */
export interface Figures {
  readonly reading: (reading: MeasuredReading) => Written;
  /** What it means in words, with the same digits; null where the number says it all. */
  readonly meaning: (reading: MeasuredReading) => string | null;
  /** then, now, and now - then of the numbers as they are shown. The difference is always signed. */
  readonly comparison: (comparison: Comparison) => {
    readonly then: Written;
    readonly now: Written;
    readonly difference: Written;
  };
}

/** What is shown with one number of digits: a reading in one view and unit, at all checkpoints, of one swing or two. */
interface Family {
  readonly values: MeasuredReading[];
  readonly changes: MeasuredReading[];
  readonly comparisons: Comparison[];
}

/** The two values that a change from address lies between. */
interface Between {
  readonly address: MeasuredReading;
  readonly here: MeasuredReading;
}

/** Where rounded numbers would contradict a verdict, so many digits more at most. */
const MOST_ADDED = 2;

/**
 * One rule for all that stands on a sheet, a still or a list:
 * - A reading has one number of digits at all checkpoints, then and now: the least that any of its ± deserves. The ± of
 *   changes and differences, which are larger, has no more than two figures then.
 * - A change from address, and a difference of then and now, is the difference of the numbers as they are shown.
 * - Where numbers so rounded would contradict a verdict ("+5 ± 5: moved"), all get a digit more, or two where that mends it.
 * A reading that is not among those given is written by itself.
 * @param swings the readings of one swing, or of each of two; those of one list belong together
 */
export function figuresOf(
  swings: readonly (readonly MeasuredReading[])[],
  comparisons: readonly Comparison[] = [],
): Figures {
  const lists = [...swings, comparisons.map(({ then }) => then), comparisons.map(({ now }) => now)];
  const between = new Map(lists.flatMap(changesIn));
  const numberOf = (reading: MeasuredReading, decimals: number): number => {
    const ends = between.get(reading);
    if (ends === undefined) return rounded(reading.value, decimals);
    return rounded(ends.here.value, decimals) - rounded(ends.address.value, decimals);
  };
  const differenceOf = ({ then, now }: Comparison, decimals: number): number =>
    rounded(numberOf(now, decimals) - numberOf(then, decimals), decimals);
  const isContradicted = (comparison: Comparison, decimals: number): boolean => {
    const half = roundedHalf(halfOf(comparison), decimals);
    // The tolerance of `held` does not stand beside the numbers.
    return Math.abs(differenceOf(comparison, decimals)) > half !== (comparison.verdict === 'moved');
  };

  const digits = new Map<string, number>();
  for (const [key, family] of familiesOf(lists.flat(), comparisons)) {
    const deserved = decimalsDeserved(family);
    const tried = Array.from({ length: MOST_ADDED + 1 }, (_, added) => deserved + added);
    const agreeing = tried.find((decimals) => !family.comparisons.some((each) => isContradicted(each, decimals)));
    digits.set(key, agreeing ?? deserved);
  }
  const decimalsOf = (reading: MeasuredReading): number => digits.get(keyOf(reading)) ?? decimalsFor(halfOf(reading));
  const writeReading = (reading: MeasuredReading): Written => {
    const decimals = decimalsOf(reading);
    const number = numberOf(reading, decimals);
    return write(number, halfOf(reading), reading.unit, reading.aspect === 'change', decimals);
  };
  return {
    reading: writeReading,
    meaning: (reading) => meaningOf(reading, decimalsOf(reading)),
    comparison(comparison) {
      const { then, now, unit } = comparison;
      const decimals = decimalsOf(now);
      const difference = write(differenceOf(comparison, decimals), halfOf(comparison), unit, true, decimals);
      return { then: writeReading(then), now: writeReading(now), difference };
    },
  };
}

function keyOf({ id, view, unit }: MeasuredReading): string {
  return `${id} ${view} ${unit}`;
}

function familiesOf(
  readings: readonly MeasuredReading[],
  comparisons: readonly Comparison[],
): ReadonlyMap<string, Family> {
  const families = new Map<string, Family>();
  const familyOf = (reading: MeasuredReading): Family => {
    const family = families.get(keyOf(reading)) ?? { values: [], changes: [], comparisons: [] };
    families.set(keyOf(reading), family);
    return family;
  };
  for (const reading of readings) familyOf(reading)[reading.aspect === 'value' ? 'values' : 'changes'].push(reading);
  for (const comparison of comparisons) familyOf(comparison.now).comparisons.push(comparison);
  return families;
}

function decimalsDeserved({ values, changes, comparisons }: Family): number {
  const numbers = values.length > 0 ? values : changes;
  return Math.min(
    ...numbers.map((reading) => decimalsFor(halfOf(reading))),
    ...[...changes, ...comparisons].map((each) => mostDecimalsFor(halfOf(each))),
  );
}

/** The changes among readings of one swing whose two values are there too. */
function changesIn(readings: readonly MeasuredReading[]): readonly (readonly [MeasuredReading, Between])[] {
  return readings.flatMap((change) => {
    if (change.aspect !== 'change') return [];
    const valueAt = (checkpoint: MeasuredReading['checkpoint']): MeasuredReading | undefined =>
      readings.find(
        (each) => each.unit === change.unit && sameReading(each, { ...change, aspect: 'value', checkpoint }),
      );
    const [address, here] = [valueAt('address'), valueAt(change.checkpoint)];
    return address === undefined || here === undefined ? [] : [[change, { address, here }] as const];
  });
}
