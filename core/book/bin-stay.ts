import { BIN_DAYS, type BinEntry } from '../model/bin.ts';

const DAY_MS = 24 * 60 * 60 * 1000;

/** What was removed before this instant has lain in the bin long enough. */
export function endOfStay(now: Date): string {
  return new Date(now.getTime() - BIN_DAYS * DAY_MS).toISOString();
}

/** Days until an entry goes for good, begun ones counted: 30 at first, 0 when its time is over, whatever the clock was set to. */
export function daysLeft({ removedAt }: Pick<BinEntry, 'removedAt'>, now: Date): number {
  const days = BIN_DAYS - (now.getTime() - Date.parse(removedAt)) / DAY_MS;
  return Math.min(BIN_DAYS, Math.max(0, Math.ceil(days)));
}
