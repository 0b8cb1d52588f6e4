import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../../core/book/book.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { goalsFileOf, parseGoalsFile } from '../../../core/parse/goals.ts';
import { expectThrown } from '../../support/trouble.ts';
import { GOALS_OF_BEFORE } from '../goals-file/goals-of-before.ts';
import { range, sampleGoals } from '../goals-file/sample-goals.ts';
import { newBook, reopen } from './with-book.ts';

const SHIPPED = { goals: SHIPPED_GOALS, shippedGoals: SHIPPED_GOALS, shipped: true, trouble: null };
const row = v.strictObject({ aside: v.number(), content: v.string() });
const stored = (book: Book) => book.database.all(row, 'SELECT aside, content FROM pattern ORDER BY number');

describe('the goals of a book', () => {
  test('are the shipped ones until the coach has own ones, which stay over a restart', () => {
    const book = newBook();
    expect(book.readGoals()).toEqual(SHIPPED);
    book.writeGoals(sampleGoals());
    book.writeGoals({ ...sampleGoals(), name: 'Second' });
    const own = { ...SHIPPED, goals: { ...sampleGoals(), name: 'Second' }, shipped: false };
    expect(book.readGoals()).toEqual(own);
    expect(stored(book)).toHaveLength(1);
    book.close();
    expect(reopen(book.folder).readGoals()).toEqual(own);
  });

  test('of before are in its table under the word they had then, and are read as they were', () => {
    const book = newBook();
    book.database.run('INSERT INTO pattern (aside, content) VALUES (0, ?)', GOALS_OF_BEFORE);
    book.close();
    const read = reopen(book.folder).readGoals();
    expect(read).toEqual({ ...SHIPPED, goals: parseGoalsFile(JSON.parse(GOALS_OF_BEFORE)), shipped: false });
  });

  test('go back to the shipped ones, and forward again', () => {
    const book = newBook();
    book.resetGoals();
    book.writeGoals(sampleGoals());
    book.resetGoals();
    expect(book.readGoals()).toEqual(SHIPPED);
    expect(stored(book)).toEqual([]);
    book.writeGoals(sampleGoals());
    expect(book.readGoals().shipped).toBe(false);
  });

  test('that is none is refused whole, and the one before stays', () => {
    const book = newBook();
    book.writeGoals(sampleGoals());
    for (const wrong of [
      { ...sampleGoals(), name: '' },
      { ...sampleGoals(), wanted: [range({ from: 1, to: 0 })] },
      { ...sampleGoals(), wanted: [range({ to: NaN })] },
    ])
      expectThrown(() => book.writeGoals(wrong), 'bad-request', /^The goals cannot be taken: /);
    expect(book.readGoals().goals).toEqual(sampleGoals());
  });

  test.each([
    ['no JSON', '{"format":', /It is not JSON\.$/],
    ['another thing', '[]', /format is missing/],
    ['goals with a hole', JSON.stringify({ ...goalsFileOf(sampleGoals()), wanted: [{}] }), /wanted\[0\]/],
    ['a newer one', '{"format":"baybook-pattern","version":9}', /version 9/],
  ])('that is damaged (%s) gives way to the shipped one with a sentence, and is never lost', (_, content, sentence) => {
    const book = newBook();
    book.database.run('INSERT INTO pattern (aside, content) VALUES (0, ?)', content);
    const read = book.readGoals();
    expect(read).toMatchObject({ goals: SHIPPED_GOALS, shipped: true });
    expect(read.trouble).toMatch(/^The goals kept in .*book\.sqlite cannot be read, so the shipped ones are in use/);
    expect(read.trouble).toMatch(sentence);
    expect(stored(book)).toEqual([{ aside: 0, content }]);

    book.writeGoals(sampleGoals());
    expect(book.readGoals()).toEqual({ ...SHIPPED, goals: sampleGoals(), shipped: false });
    expect(stored(book)[0]).toEqual({ aside: 1, content });
    book.resetGoals();
    expect(stored(book)).toEqual([{ aside: 1, content }]);
    expect(book.readGoals()).toEqual(SHIPPED);
  });
});
