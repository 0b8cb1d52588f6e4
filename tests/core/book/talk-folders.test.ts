import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { addSample } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const NOW = '2026-05-12T10:00:00.000Z';

/** A book with a talk-through of its swing: a folder with a file in it. */
function talked() {
  const book = newBook();
  const { student, lesson, swing } = addSample(book);
  const folder = book.talkFolder(swing.id);
  writeFileSync(join(folder, 'take-0000.wav'), 'voice');
  return { book, student, lesson, swing, folder };
}

test('a swing has one folder for its talk-through, in the book', () => {
  const { book, swing, folder } = talked();
  expect(book.talkFolder(swing.id)).toBe(folder);
  expect(folder.startsWith(book.folder)).toBe(true);
  expect(() => book.talkFolder('11111111-1111-4111-8111-111111111111')).toThrow(/swing/);
});

test('it stays while its swing can be put back, and goes with it for good', () => {
  for (const kind of ['swing', 'lesson', 'student'] as const) {
    const { book, student, lesson, swing, folder } = talked();
    const { id } = { swing, lesson, student }[kind];
    const entry = book.moveToBin(kind, id, NOW);
    expect(readdirSync(folder)).toEqual(['take-0000.wav']);
    book.putBack(entry.id);
    expect(readdirSync(folder)).toEqual(['take-0000.wav']);
    book.moveToBin(kind, id, NOW);
    book.emptyBin();
    expect(existsSync(folder)).toBe(false);
  }
});

test('a swing in the bin keeps its folder for as long as it lies there', () => {
  const { book, student, swing, folder } = talked();
  book.moveToBin('swing', swing.id, NOW);
  book.removeStudent(student.id);
  expect(existsSync(folder)).toBe(true);
  book.emptyBin();
  expect(existsSync(folder)).toBe(false);
});

test('what a killed removal left goes at the next opening; folders that are not ours stay', () => {
  const { book, folder } = talked();
  const left = join(folder, '..', '11111111-1111-4111-8111-111111111111');
  const other = join(folder, '..', 'my notes');
  mkdirSync(left);
  mkdirSync(other);
  book.close();
  reopen(book.folder);
  expect([existsSync(left), existsSync(other), existsSync(folder)]).toEqual([false, true, true]);
});
