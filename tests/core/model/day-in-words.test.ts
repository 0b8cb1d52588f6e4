import { afterEach, describe, expect, it, test } from 'vitest';
import { USUAL_PLACE, dayInWords, placeOfSystem, writeDaysAs } from '../../../core/model/day-in-words.ts';

afterEach(() => writeDaysAs(USUAL_PLACE));

test('every month of a year is said as the language itself says it', () => {
  for (let month = 1; month <= 12; month++) {
    const day = `2026-${String(month).padStart(2, '0')}-09`;
    const said = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });
    expect(dayInWords(day)).toBe(said.format(new Date(`${day}T12:00:00Z`)));
  }
});

test('a day is written as the system writes it; a place that is none changes nothing', () => {
  expect(dayInWords('2026-05-12')).toBe('12 May 2026');
  writeDaysAs('en-US');
  expect(dayInWords('2026-05-12')).toBe('May 12, 2026');
  writeDaysAs('no such place');
  expect(dayInWords('2026-05-12')).toBe('May 12, 2026');
  writeDaysAs('de-AT');
  expect(dayInWords('2026-05-12')).toBe('12. Mai 2026');
});

test('leap days are days in leap years, and no others', () => {
  expect(['2024-02-29', '2000-02-29', '2026-12-31', '1970-01-01'].map(dayInWords)).toEqual([
    ...['29 February 2024', '29 February 2000', '31 December 2026', '1 January 1970'],
  ]);
  for (const day of ['2026-02-29', '2100-02-29', '2026-04-31', '2026-06-00']) expect(dayInWords(day)).toBe(day);
});

test('what is no day comes back as it is', () => {
  for (const text of ['', 'May', '2026-13-01', '2026-00-01', '2026-02-30', '2026-5-1', '12 May 2026'])
    expect(dayInWords(text)).toBe(text);
});

describe('the place of a system', () => {
  it.each([
    [{ LC_ALL: 'en_US.UTF-8', LC_TIME: 'de_DE.UTF-8', LANG: 'fr_FR' }, 'en-US'],
    [{ LC_TIME: 'de_DE@euro', LANG: 'en_US.UTF-8' }, 'de-DE'],
    [{ LC_ALL: '', LANG: 'sv_SE.UTF-8' }, 'sv-SE'],
    [{ LANG: 'C.UTF-8' }, USUAL_PLACE],
    [{ LANG: 'POSIX' }, USUAL_PLACE],
    [{}, 'en-AU'],
  ])('%o is %s', (variables, place) => {
    expect(placeOfSystem(variables, 'en-AU')).toBe(place);
  });

  it('is the usual one where nobody says any', () => {
    expect(placeOfSystem({}, '')).toBe(USUAL_PLACE);
  });
});
