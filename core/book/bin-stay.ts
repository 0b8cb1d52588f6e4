import { BIN_DAYS, type BinEntry } from '../model/bin.ts';

const DAY_MS = 24 * 60 * 60 * 1000;

/** What was removed before this instant has lain in the bin long enough. */
export function endOfStay(now: Date): string {
  return new Date(now.getTime() - BIN_DAYS * DAY_MS).toISOString();
}

/** Whole days until an entry goes for good: at most 30, 0 on the last day, also where the clock was set back or forth. */
export function daysLeft({ removedAt }: Pick<BinEntry, 'removedAt'>, now: Date): number {
  const days = BIN_DAYS - (now.getTime() - Date.parse(removedAt)) / DAY_MS;
  return Math.min(BIN_DAYS, Math.max(0, Math.floor(days)));
}
