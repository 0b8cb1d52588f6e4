import type { Comparison, MeasuredReading, Reading, ReadingNote } from '../../model/reading.ts';
import { MOST_OF_VALUE } from '../camera/calibration.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { plausibleRange } from './plausible.ts';
import type { ShapeNumber } from '../readings/shape-number.ts';

/** Why a number says nothing; the first that holds. The words for people are in words.ts. */
export type IdleReason = Extract<ReadingNote, 'short-line' | 'scale-unsure'> | 'too-wide';

/**
 * Why nobody can do anything with the number, or null where it says something. An angle tells nothing once its ± passes
 * about 11 degrees (`short-line`), whatever it is: near 0 it is as good as elsewhere, so no part of the value can be the
 * limit. A size must be known to half of itself (`MOST_OF_VALUE`). What lies round 0 by nature (shifts, rises, distances from a line) is
 * held against all that it can be: a ± of half that span adds nothing to what everybody knows.
 */
export function idleReason(reading: MeasuredReading): IdleReason | null {
  const { id, aspect, notes, value, u, coverage } = reading;
  if (notes.includes('short-line')) return 'short-line';
  if (notes.includes('scale-unsure')) return 'scale-unsure';
  const half = coverage * u;
  if (CATALOGUE[id].isSize && aspect === 'value') return half > MOST_OF_VALUE * Math.abs(value) ? 'too-wide' : null;
  const possible = plausibleRange(reading);
  return possible !== null && half > (possible.to - possible.from) / 2 ? 'too-wide' : null;
}

/**
 * Whether a number is worth showing: nobody can do anything with "4° ± 83°". Such readings are kept as data and left out
 * of stills, sheets and lists.
 */
export function isOfUse(reading: MeasuredReading): boolean {
  return idleReason(reading) === null;
}

/** The measured ones that are worth showing, in their order. */
export function readingsOfUse(readings: readonly Reading[]): readonly MeasuredReading[] {
  return readings.filter((reading) => reading.state === 'measured').filter(isOfUse);
}

/** A difference is worth showing where both of its numbers are. */
export function comparisonsOfUse(comparisons: readonly Comparison[]): readonly Comparison[] {
  return comparisons.filter(({ then, now }) => isOfUse(then) && isOfUse(now));
}

/** The same of a number of a drawn shape. A given length is always of use. */
export function isShapeNumberOfUse(number: ShapeNumber): boolean {
  if (number.state === 'missing') return false;
  const { value, unit, u, coverage, notes } = number;
  if (notes.includes('short-line') || notes.includes('scale-unsure')) return false;
  return unit === 'deg' || coverage * u <= MOST_OF_VALUE * Math.abs(value) || u === 0;
}
