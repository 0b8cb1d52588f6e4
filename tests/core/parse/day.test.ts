import { expect, test } from 'vitest';
import { DAY } from '../../../core/parse/day.ts';

const written = (year: number, month: number, date: number): string =>
  `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;

test('a day is real when and only when the calendar of the runtime has it', () => {
  for (const year of [1900, 1904, 1999, 2000, 2023, 2024, 2100, 2400, 2999])
    for (let month = 0; month <= 13; month += 1)
      for (let date = 0; date <= 32; date += 1) {
        const text = written(year, month, date);
        const moment = new Date(Date.UTC(year, month - 1, date));
        const real =
          moment.getUTCMonth() === month - 1 && moment.getUTCDate() === date && moment.getUTCFullYear() === year;
        expect({ text, day: DAY.test(text) }).toEqual({ text, day: real });
      }
});

test.each(['', '2026-5-12', '12.05.2026', '1899-12-31', '3000-01-01', '2026-05-12 ', '2026-05-12T10:00', '0000-00-00'])(
  '%j is no day',
  (text) => {
    expect(DAY.test(text)).toBe(false);
  },
);
