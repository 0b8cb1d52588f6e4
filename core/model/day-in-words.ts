import { LANGUAGE, LANGUAGE_TAG } from './language.ts';

/** How days are written where nobody says otherwise. */
export const USUAL_PLACE = LANGUAGE_TAG;

let place = USUAL_PLACE;
let format = formatOf(USUAL_PLACE);

/**
 * Days are written as the system of this computer writes them, in one form everywhere. As a language, that is one for a whole
 * process, told at its start (`placeOfSystem`); a place that is none leaves it as it was.
 */
export function writeDaysAs(told: string): void {
  // In English, days stay as this system has them. Within German sentences only German ones read well.
  if (told === place || (LANGUAGE !== 'en' && !told.startsWith(LANGUAGE))) return;
  try {
    format = formatOf(told);
    place = told;
  } catch {
    // No such place: days stay readable.
  }
}

/** An ISO 8601 day as people say it, e.g. "12 May 2026"; what is no such day comes back as it is. */
export function dayInWords(day: string): string {
  const [, year, month, date] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(day) ?? [];
  const [y, m, d] = [Number(year), Number(month), Number(date)];
  if (year === undefined || m < 1 || m > 12 || d < 1 || d > daysIn(y, m)) return day;
  return format.format(MS_A_DAY * daysSince1970(y, m, d));
}

const MS_A_DAY = 86_400_000;

function daysIn(year: number, month: number): number {
  return daysSince1970(month === 12 ? year + 1 : year, (month % 12) + 1, 1) - daysSince1970(year, month, 1);
}

/**
 * Days of the Gregorian calendar. The year is taken to begin in March, so that a leap day is its last one, and 153 days are
 * five months of it (H. Hinnant, chrono-compatible low-level date algorithms).
 */
function daysSince1970(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + dayOfYear - 719_468;
}

/**
 * The place whose days this system writes: what its variables say (Linux: LC_ALL before LC_TIME before LANG), else `told` by
 * the system itself. "C" is no place.
 */
export function placeOfSystem(variables: Readonly<Record<string, string | undefined>>, told: string): string {
  const said =
    [variables['LC_ALL'], variables['LC_TIME'], variables['LANG']].find((each) => (each ?? '') !== '') ?? told;
  const tag = said.replace(/[.@].*$/, '').replaceAll('_', '-');
  return tag === '' || tag === 'C' || tag === 'POSIX' ? USUAL_PLACE : tag;
}

function formatOf(told: string): Intl.DateTimeFormat {
  // A day is no instant: it is the same one in every time zone.
  return new Intl.DateTimeFormat(told, { dateStyle: 'long', timeZone: 'UTC' });
}
