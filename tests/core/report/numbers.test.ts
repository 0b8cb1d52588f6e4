import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { EMPTY_GOALS } from '../../../core/measure/goals/goals.ts';
import { reportOf } from '../../../core/report/lesson-report.ts';
import { numbersAsCsv, numbersOf } from '../../../core/report/numbers.ts';
import { inventedSwing } from '../measure/invented-swing.ts';

const swing = { ...inventedSwing(), studentFirstName: '=HYPERLINK("http://example")', club: '7 iron, "old"' };
const readings = reportOf({ now: swing, then: null, goals: EMPTY_GOALS }).now;
const numbers = numbersOf(swing, readings);

function read(): Record<string, string>[] {
  const text = numbersAsCsv(numbers)
    .map((record) => `${record}\r\n`)
    .join('');
  const records: Record<string, string>[] = parse(text, { columns: true, record_delimiter: '\r\n' });
  return records;
}

describe('the numbers of a swing as CSV, read by an independent reader', () => {
  it('are all readings, each to the last digit, with unit, interval and conditions', () => {
    const records = read();
    expect(records).toHaveLength(readings.length);
    for (const [index, reading] of readings.entries()) {
      const record = records[index];
      if (reading.state === 'missing') {
        expect([record?.['state'], record?.['value'], record?.['unit']]).toEqual(['missing', '', '']);
        expect(record?.['conditions']).not.toBe('');
        continue;
      }
      expect(Number(record?.['value'])).toBe(reading.value);
      expect(record?.['unit']).toBe(reading.unit);
      expect(Number(record?.['plus or minus (95 %)'])).toBe(reading.coverage * reading.u);
      expect([Number(record?.['low (95 %)']), Number(record?.['high (95 %)'])]).toEqual(reading.interval);
    }
    expect(readings.some(({ state }) => state === 'measured')).toBe(true);
    expect(records.some((record) => Number(record['value']) < 0)).toBe(true);
  });

  it('cannot make a spreadsheet work a formula out, and keep quotes and commas', () => {
    for (const record of read()) {
      expect(record['student']).toBe(`'${swing.studentFirstName}`);
      expect(record['club']).toBe(swing.club);
      for (const [column, field] of Object.entries(record))
        if (!/^-?\d/.test(field)) expect(field, column).not.toMatch(/^[=+\-@\t\r]/);
    }
  });

  it('are the same in JSON', () => {
    const again: unknown = JSON.parse(JSON.stringify(numbers));
    expect(again).toEqual(numbers);
    expect(numbers.readings.map(({ state }) => state)).toContain('missing');
  });
});
