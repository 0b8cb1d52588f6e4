const MONTHS = 'January February March April May June July August September October November December'.split(' ');

/** An ISO 8601 day as people say it, e.g. "12 May 2026"; what is no such day comes back as it is. */
export function dayInWords(day: string): string {
  const [, year, month, date] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(day) ?? [];
  const name = MONTHS[Number(month) - 1];
  return year === undefined || name === undefined ? day : `${String(Number(date))} ${name} ${year}`;
}
