import { describe, expect, it } from 'vitest';
import {
  readClubs,
  readLimit,
  readName,
  readTolerance,
  unitOptions,
  whereInWords,
  writeClubs,
  writeLimit,
} from '../../../renderer/goals/goals-words.ts';
import { range } from '../../core/goals-file/sample-goals.ts';

describe('a number as it is typed', () => {
  it.each([
    ['25', 25],
    [' 2.5 ', 2.5],
    ['2,5', 2.5],
    ['-3', -3],
    ['−3', -3],
    ['.5', 0.5],
    ['5.', 5],
    ['0', 0],
  ])('%j is %d', (text, value) => {
    expect(readLimit(text, 'from', null, 'deg')).toEqual({ value });
  });

  it.each(['', 'x', '1 2', '1.2.3', '--1', '1e400', '1e2', 'Infinity', 'NaN', '-', '.', '1,2,3', '٣'])(
    '%j is none, and is told',
    (text) => {
      expect(readTolerance(text, 'deg')).toEqual({ trouble: expect.stringMatching(/^Write a number/) });
    },
  );

  it('that is shown is read back to the same', () => {
    for (const value of [-2.5, 0, 0.1 + 0.2, 90, -1 / 3])
      expect(readLimit(writeLimit(value, 'deg'), 'to', null, 'deg')).toEqual({ value });
  });
});

describe('a limit', () => {
  it('is none when nothing is typed, and shown as nothing', () => {
    expect(readLimit('  ', 'from', 3, 'deg')).toEqual({ value: null });
    expect(writeLimit(null, 'deg')).toBe('');
  });

  it('may be the other limit, but not pass it', () => {
    expect(readLimit('90', 'from', 90, 'deg')).toEqual({ value: 90 });
    expect(readLimit('90', 'to', 90, 'deg')).toEqual({ value: 90 });
    expect(readLimit('90.1', 'from', 90, 'deg')).toEqual({ trouble: expect.stringContaining('above "to", 90') });
    expect(readLimit('−4', 'to', -3, 'deg')).toEqual({ trouble: expect.stringContaining('below "from", −3') });
    expect(readLimit('9e', 'to', null, 'deg')).toEqual({ trouble: expect.stringContaining('nothing for no limit') });
  });
});

describe('the other fields', () => {
  it('take clubs with commas, each once, none for every club', () => {
    expect(readClubs('')).toEqual({ value: [] });
    expect(readClubs(' Driver ,7 iron,, ')).toEqual({ value: ['Driver', '7 iron'] });
    expect(readClubs('Driver, driver')).toEqual({ trouble: 'Name each club once.' });
    for (const text of ['x'.repeat(81), 'a\tb', 'a\u007f']) expect(readClubs(text)).toHaveProperty('trouble');
    expect(readClubs(writeClubs(['Driver', '7 iron']))).toEqual({ value: ['Driver', '7 iron'] });
  });

  it('take a tolerance above 0 and a name of 1 to 80 characters', () => {
    expect(readTolerance('0.5', 'deg')).toEqual({ value: 0.5 });
    for (const text of ['0', '-1', 'x']) expect(readTolerance(text, 'deg')).toHaveProperty('trouble');
    expect(readName(' Mine ')).toEqual({ value: 'Mine' });
    for (const text of ['', '  ', 'x'.repeat(81), 'a\tb']) expect(readName(text)).toHaveProperty('trouble');
  });

  it('offer the units of the reading, and keep one that is there already', () => {
    expect(unitOptions('hip-rise', 'cm').map(({ value }) => value)).toEqual(['cm', '% leg length']);
    expect(unitOptions('tempo', 'px').map(({ value }) => value)).toEqual(['ratio', 'px']);
  });

  it('say where a range holds', () => {
    expect(whereInWords(range({}))).toBe('At every checkpoint; every club');
    expect(whereInWords(range({ checkpoints: ['top', 'impact'], views: ['face-on'], clubs: ['Driver'] }))).toBe(
      'At top, impact; face on; with Driver',
    );
  });
});
