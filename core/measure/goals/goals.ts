import type { Goals, WantedRange } from '../../model/goals.ts';
import type { ReadingAspect, ReadingId, ReadingKey, Unit } from '../../model/reading.ts';

export type { Goals, WantedRange } from '../../model/goals.ts';

/** Wants nothing and tolerates nothing: until the book's own is read. */
export const EMPTY_GOALS: Goals = { name: '', about: '', wanted: [], tolerances: [], chains: [] };

/** The tolerance of a reading in a unit, or null when the goals have none. */
export function toleranceOf(goals: Goals, reading: ReadingId, aspect: ReadingAspect, unit: Unit): number | null {
  const found = goals.tolerances.find(
    (entry) => entry.reading === reading && entry.aspect === aspect && entry.unit === unit,
  );
  return found?.within ?? null;
}

/**
 * What the goals want of a reading with a club, or null. Of several entries that hold, one that names the club comes
 * before one for every club, then one that names the checkpoint, then one that names the view, then the first listed.
 */
export function wantedOf(goals: Goals, key: ReadingKey, club: string): WantedRange | null {
  const holding = goals.wanted.filter(
    (entry) =>
      entry.reading === key.id &&
      entry.aspect === key.aspect &&
      isEmptyOrHas(entry.views, key.view) &&
      isEmptyOrHas(entry.checkpoints, key.checkpoint) &&
      holdsForClub(entry, club),
  );
  const rank = ({ clubs, checkpoints, views }: WantedRange): number =>
    (clubs.length > 0 ? 4 : 0) + (checkpoints.length > 0 ? 2 : 0) + (views.length > 0 ? 1 : 0);
  return holding.reduce<WantedRange | null>(
    (best, entry) => (best === null || rank(entry) > rank(best) ? entry : best),
    null,
  );
}

/** Whether a wanted range is for that club: names are the same but for case and spaces at their ends. */
export function holdsForClub({ clubs }: Pick<WantedRange, 'clubs'>, club: string): boolean {
  return clubs.length === 0 || clubs.some((each) => plainName(each) === plainName(club));
}

/** A club's name without what two spellings of it may differ in: case, and spaces at its ends. */
export const plainName = (club: string): string => club.trim().toLowerCase();

/** An entry without limits wants nothing: its words stand beside the reading. */
export function isWordsOnly({ from, to }: Pick<WantedRange, 'from' | 'to'>): boolean {
  return from === null && to === null;
}

const isEmptyOrHas = <T>(list: readonly T[], value: T): boolean => list.length === 0 || list.includes(value);
