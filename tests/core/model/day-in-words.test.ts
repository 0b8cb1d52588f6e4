import { expect, test } from 'vitest';
import { dayInWords } from '../../../core/model/day-in-words.ts';

test('every month of a year is said as the language itself says it', () => {
  for (let month = 1; month <= 12; month++) {
    const day = `2026-${String(month).padStart(2, '0')}-09`;
    const said = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });
    expect(dayInWords(day)).toBe(said.format(new Date(`${day}T12:00:00Z`)));
  }
});

test('what is no day comes back as it is', () => {
  for (const text of ['', 'May', '2026-13-01', '2026-00-01', '2026-5-1', '12 May 2026'])
    expect(dayInWords(text)).toBe(text);
});
