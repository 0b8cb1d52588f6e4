import { say } from '../../model/say.ts';
import type { MeasuredReading, ReadingKey, Unit } from '../../model/reading.ts';
import { CATALOGUE } from '../catalogue/catalogue.ts';
import type { PlausibleRange } from '../catalogue/entry.ts';

/** The range that a reading is held against, or null where any value can be. */
export function plausibleRange(reading: ReadingKey & { readonly unit: Unit }): PlausibleRange | null {
  const { id, unit, aspect, view, checkpoint } = reading;
  const fits = (one: PlausibleRange) =>
    one.unit === unit &&
    one.aspect === aspect &&
    (one.view === null || one.view === view) &&
    (one.at === null || one.at.includes(checkpoint));
  return CATALOGUE[id].plausible.find(fits) ?? null;
}

/** What the coach is then asked: only the coach can see whether it is so. */
export const IMPLAUSIBLE_QUESTION = say`Is this right? Two of its points may be swapped, or its frame misnamed.`;

/** The same of a time: what turns it into seconds of the swing is the first thing to look at. */
export const TIME_QUESTION = say`Is this right? The real rate may be wrong, the clip may play at another speed, or a frame may be misnamed.`;

/** What the coach is asked of a reading, or null where there is nothing to ask. */
export function questionOf(reading: MeasuredReading): string | null {
  if (!isImplausible(reading)) return null;
  return reading.unit === 's' ? TIME_QUESTION : IMPLAUSIBLE_QUESTION;
}

/** Whether the coach should be asked "Is this right?": the reading with all of its ± lies outside of what can be. */
export function isImplausible(reading: MeasuredReading): boolean {
  const possible = plausibleRange(reading);
  const [low, high] = reading.interval;
  return possible !== null && (high < possible.from || low > possible.to);
}
