import { expect, test } from 'vitest';
import { wrapText } from '../../../core/painting/text-wrap.ts';

const perCharacter = (text: string) => [...text].length;

test('lines break at spaces and hold as much as fits', () => {
  expect(wrapText('one two three four', 9, perCharacter)).toEqual(['one two', 'three', 'four']);
  expect(wrapText('one two', 7, perCharacter)).toEqual(['one two']);
});

test('a word wider than a line is cut, and nothing of it is lost', () => {
  expect(wrapText('a abcdefgh b', 3, perCharacter)).toEqual(['a', 'abc', 'def', 'gh', 'b']);
});

test('a number stays with its ±', () => {
  expect(wrapText('Lean 41.2° ± 1.3°', 14, perCharacter)).toEqual(['Lean', '41.2°\u00A0±\u00A01.3°']);
});

test('a line holds one character at least, and characters of two code units stay whole', () => {
  expect(wrapText('ab', 0, perCharacter)).toEqual(['a', 'b']);
  expect(wrapText('😀😀', 1, perCharacter)).toEqual(['😀', '😀']);
});

test('no words, no lines', () => {
  expect(wrapText('', 10, perCharacter)).toEqual([]);
  expect(wrapText('  \n ', 10, perCharacter)).toEqual([]);
});
