import { say } from '../../model/say.ts';
import type { Comparison, MeasuredReading, Verdict } from '../../model/reading.ts';
import { sameReading } from '../../model/reading.ts';
import type { Checkpoint } from '../../model/words.ts';
import { oneSided } from '../uncertainty/levels.ts';
import {
  decimalsFor,
  decimalsThatPart,
  formatTyped,
  formatValue,
  meaningOf,
  mostDecimalsFor,
  rounded,
  roundedHalf,
  shownHalf,
  shownValue,
  write,
  type Written,
} from './format.ts';
import { toShown } from './shown-units.ts';

/** How numbers are written that people see together, so that whoever does a sum finds it right. */
export interface Figures {
  readonly reading: (reading: MeasuredReading) => Written;
  /** What it means in words, with the same digits; null where the number says it all. */
  readonly meaning: (reading: MeasuredReading) => string | null;
  readonly comparison: (comparison: Comparison) => WrittenComparison;
}

/** then, now, and now - then of the numbers as they are shown. The difference is always signed. */
export interface WrittenComparison {
  readonly then: Written;
  readonly now: Written;
  readonly difference: Written;
  /** Where a verdict hangs on less than these digits show: on what, e.g. "at most 4.92°, tolerance 5°". Else null. */
  readonly close: string | null;
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

/** Digits of a family at one checkpoint. */
type DigitsAt = (key: string, checkpoint: Checkpoint) => number;

/**
 * One rule for all that stands on a sheet, a still or a list:
 * - A reading has one number of digits at all checkpoints, then and now: the least that any of its ± deserves. The ± of
 *   changes and differences, which are larger, has no more than two figures then.
 * - A change from address, and a difference of then and now, is the difference of the numbers as they are shown.
 * - Where numbers so rounded would contradict a verdict ("+5 ± 5: changed"), those of that checkpoint get a digit more, and
 *   the number at address that its change is counted from. All others keep theirs.
 * - What a digit does not part is said in words (`close`): no number has digits far below its ±.
 * A reading that is not among those given is written by itself.
 * @param swings the readings of one swing, or of each of two; those of one list belong together
 */
export function figuresOf(
  swings: readonly (readonly MeasuredReading[])[],
  comparisons: readonly Comparison[] = [],
): Figures {
  const lists = [...swings, comparisons.map(({ then }) => then), comparisons.map(({ now }) => now)];
  const between = new Map(lists.flatMap(changesIn));
  const numberOf = (reading: MeasuredReading, digitsAt: DigitsAt): number => {
    const key = keyOf(reading);
    const decimals = digitsAt(key, reading.checkpoint);
    const ends = between.get(reading);
    if (ends === undefined) return rounded(shownValue(reading), decimals);
    const address = rounded(shownValue(ends.address), digitsAt(key, 'address'));
    return rounded(rounded(shownValue(ends.here), decimals) - address, decimals);
  };
  const differenceOf = ({ then, now }: Comparison, digitsAt: DigitsAt): number => {
    const decimals = digitsAt(keyOf(now), now.checkpoint);
    return rounded(numberOf(now, digitsAt) - numberOf(then, digitsAt), decimals);
  };
  const isContradicted = (comparison: Comparison, digitsAt: DigitsAt): boolean => {
    // What is screened among many may be larger than its own ± and still be chance.
    if (!comparison.isOnTrial && !FOUND.has(comparison.verdict)) return false;
    const half = roundedHalf(shownHalf(comparison), digitsAt(keyOf(comparison.now), comparison.checkpoint));
    return Math.abs(differenceOf(comparison, digitsAt)) > half !== FOUND.has(comparison.verdict);
  };

  const deserved = new Map<string, number>();
  const added = new Map<string, number>();
  const digitsAt: DigitsAt = (key, checkpoint) => (deserved.get(key) ?? 0) + (added.get(`${key} ${checkpoint}`) ?? 0);
  for (const [key, family] of familiesOf(lists.flat(), comparisons)) {
    deserved.set(key, decimalsDeserved(family));
    const isChangedAt = (checkpoint: Checkpoint) => family.changes.some((change) => change.checkpoint === checkpoint);
    // A digit more at address may part what agreed before at another checkpoint; each gets one once.
    let more: readonly Comparison[];
    do {
      more = family.comparisons.filter(
        (each) => !added.has(`${key} ${each.checkpoint}`) && isContradicted(each, digitsAt),
      );
      for (const { checkpoint } of more) {
        added.set(`${key} ${checkpoint}`, 1);
        if (isChangedAt(checkpoint)) added.set(`${key} address`, 1);
      }
    } while (more.length > 0);
  }
  const decimalsOf = (reading: MeasuredReading): number =>
    deserved.has(keyOf(reading)) ? digitsAt(keyOf(reading), reading.checkpoint) : decimalsFor(shownHalf(reading));
  const writeReading = (reading: MeasuredReading): Written => {
    const number = deserved.has(keyOf(reading)) ? numberOf(reading, digitsAt) : shownValue(reading);
    return write(number, shownHalf(reading), reading.unit, reading.aspect === 'change', decimalsOf(reading));
  };
  return {
    reading: writeReading,
    meaning: (reading) => meaningOf(reading, decimalsOf(reading)),
    comparison(comparison) {
      const { then, now, unit } = comparison;
      const decimals = decimalsOf(now);
      const difference = write(differenceOf(comparison, digitsAt), shownHalf(comparison), unit, true, decimals);
      const close = isContradicted(comparison, digitsAt)
        ? closeToHalf(comparison)
        : closeToTolerance(comparison, decimals);
      return { then: writeReading(then), now: writeReading(now), difference, close };
    },
  };
}

/** How near a difference is to its ±, in digits that part the two. */
function closeToHalf(comparison: Comparison): string {
  const [size, half] = [Math.abs(toShown(comparison.difference, comparison.unit)), shownHalf(comparison)];
  const decimals = decimalsThatPart(size, half);
  const text = (number: number) => formatValue(number, comparison.unit, decimals);
  return say`${text(size)} against ± ${text(half)}`;
}

/** Verdicts that say that something changed. */
const FOUND: ReadonlySet<Verdict> = new Set<Verdict>(['changed', 'worth a look']);

/** How near a difference with 95 % of what it may be is to the tolerance; null where that is more than its last digit. */
function closeToTolerance(comparison: Comparison, decimals: number): string | null {
  const { unit, verdict } = comparison;
  const tolerance = comparison.tolerance === null ? null : toShown(comparison.tolerance, unit);
  const most = toShown(Math.abs(comparison.difference) + oneSided(comparison.coverage) * comparison.u, unit);
  if (
    tolerance === null ||
    comparison.tolerance === null ||
    FOUND.has(verdict) ||
    Math.abs(most - tolerance) > 10 ** -decimals
  )
    return null;
  const text = formatValue(most, unit, Math.max(decimals, decimalsThatPart(most, tolerance)));
  return verdict === 'no change'
    ? say`at most ${text}, tolerance ${formatTyped(comparison.tolerance, unit)}`
    : say`up to ${text}, tolerance ${formatTyped(comparison.tolerance, unit)}`;
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
    ...numbers.map((reading) => decimalsFor(shownHalf(reading))),
    ...[...changes, ...comparisons].map((each) => mostDecimalsFor(shownHalf(each))),
  );
}

/** The changes among readings of one swing whose two values are there too. */
function changesIn(readings: readonly MeasuredReading[]): readonly (readonly [MeasuredReading, Between])[] {
  return readings.flatMap((change) => {
    if (change.aspect !== 'change') return [];
    const valueAt = (checkpoint: MeasuredReading['checkpoint']): MeasuredReading | undefined =>
      readings.find(
        (each) =>
          each.unit === change.unit &&
          // Means of other swings than the change's do not add up to it.
          each.swings?.values.length === change.swings?.values.length &&
          sameReading(each, { ...change, aspect: 'value', checkpoint }),
      );
    const [address, here] = [valueAt('address'), valueAt(change.checkpoint)];
    return address === undefined || here === undefined ? [] : [[change, { address, here }] as const];
  });
}
