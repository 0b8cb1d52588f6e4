const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/** Whether `text` is a day of the Gregorian calendar from 1900 to 2999, written as ISO 8601 does: 2026-05-12. */
export function isDay(text: string): boolean {
  const match = /^(19\d\d|2\d\d\d)-(\d\d)-(\d\d)$/.exec(text);
  if (match === null) return false;
  const [year, month, date] = match.slice(1).map(Number);
  if (year === undefined || month === undefined || date === undefined) return false;
  const usual = DAYS_IN_MONTH[month - 1];
  if (usual === undefined) return false;
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return date >= 1 && date <= (month === 2 && leap ? 29 : usual);
}
