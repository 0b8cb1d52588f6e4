import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import { SHIPPED_PATTERN } from '../../../core/parse/shipped-pattern.ts';
import { patternFileOf } from '../../../core/parse/pattern.ts';
import { expectThrown } from '../../support/trouble.ts';
import { range, samplePattern } from '../pattern-file/sample-pattern.ts';
import { newBook, reopen } from './with-book.ts';

const SHIPPED = { pattern: SHIPPED_PATTERN, shippedPattern: SHIPPED_PATTERN, shipped: true, trouble: null };
const row = v.strictObject({ aside: v.number(), content: v.string() });
const stored = (book: Book) => book.database.all(row, 'SELECT aside, content FROM pattern ORDER BY number');

describe('the pattern of a book', () => {
  test('is the shipped one until the coach has an own one, which stays over a restart', () => {
    const book = newBook();
    expect(book.readPattern()).toEqual(SHIPPED);
    book.writePattern(samplePattern());
    book.writePattern({ ...samplePattern(), name: 'Second' });
    const own = { ...SHIPPED, pattern: { ...samplePattern(), name: 'Second' }, shipped: false };
    expect(book.readPattern()).toEqual(own);
    expect(stored(book)).toHaveLength(1);
    book.close();
    expect(reopen(book.folder).readPattern()).toEqual(own);
  });

  test('goes back to the shipped one, and forward again', () => {
    const book = newBook();
    book.resetPattern();
    book.writePattern(samplePattern());
    book.resetPattern();
    expect(book.readPattern()).toEqual(SHIPPED);
    expect(stored(book)).toEqual([]);
    book.writePattern(samplePattern());
    expect(book.readPattern().shipped).toBe(false);
  });

  test('that is none is refused whole, and the one before stays', () => {
    const book = newBook();
    book.writePattern(samplePattern());
    for (const wrong of [
      { ...samplePattern(), name: '' },
      { ...samplePattern(), wanted: [range({ from: 1, to: 0 })] },
      { ...samplePattern(), wanted: [range({ to: NaN })] },
    ])
      expectThrown(() => book.writePattern(wrong), 'bad-request', /^The pattern cannot be taken: /);
    expect(book.readPattern().pattern).toEqual(samplePattern());
  });

  test.each([
    ['no JSON', '{"format":', /It is not JSON\.$/],
    ['another thing', '[]', /format is missing/],
    ['a pattern with a hole', JSON.stringify({ ...patternFileOf(samplePattern()), wanted: [{}] }), /wanted\[0\]/],
    ['a newer one', '{"format":"baybook-pattern","version":9}', /version 9/],
  ])('that is damaged (%s) gives way to the shipped one with a sentence, and is never lost', (_, content, sentence) => {
    const book = newBook();
    book.database.run('INSERT INTO pattern (aside, content) VALUES (0, ?)', content);
    const read = book.readPattern();
    expect(read).toMatchObject({ pattern: SHIPPED_PATTERN, shipped: true });
    expect(read.trouble).toMatch(/^The pattern kept in .*book\.sqlite cannot be read, so the shipped one is in use/);
    expect(read.trouble).toMatch(sentence);
    expect(stored(book)).toEqual([{ aside: 0, content }]);

    book.writePattern(samplePattern());
    expect(book.readPattern()).toEqual({ ...SHIPPED, pattern: samplePattern(), shipped: false });
    expect(stored(book)[0]).toEqual({ aside: 1, content });
    book.resetPattern();
    expect(stored(book)).toEqual([{ aside: 1, content }]);
    expect(book.readPattern()).toEqual(SHIPPED);
  });
});
