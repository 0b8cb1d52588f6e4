import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as v from 'valibot';
import { expect, test } from 'vitest';
import { findStrays, straySentences } from '../../../core/book/strays.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample, addSampleClip } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

test('a book that fits together has nothing to say', async () => {
  const book = newBook();
  await addSampleClip(book, addSample(book).swing.id);
  expect(findStrays(book)).toEqual({ unnamed: [], lost: [], aside: [] });
  expect(straySentences(findStrays(book), book.media.path)).toEqual([]);
});

test('files of no clip and clips without their file are counted and named, and nothing is deleted', async () => {
  const book = newBook();
  const clip = await addSampleClip(book, addSample(book).swing.id);
  const [{ file } = { file: '' }] = [...findFiles(book)];
  rmSync(join(book.media.path, file));
  const stranger = join(book.media.path, 'holiday.mp4');
  writeFileSync(stranger, Buffer.alloc(3 * 1024 ** 2));
  const again = reopened(book);
  const strays = findStrays(again);
  expect(strays).toEqual({
    unnamed: [{ path: stranger, bytes: 3 * 1024 ** 2 }],
    lost: [{ path: join(book.media.path, file), clip: clip.originalName }],
    aside: [],
  });
  const [lost = '', unnamed = ''] = straySentences(strays, again.media.path);
  expect(lost).toMatch(/^1 clip of the book has its file missing in .*media: .*\. Put the files back/);
  expect(lost).toContain(clip.originalName);
  expect(unnamed).toMatch(/^1 file in .*media \(3\.0 MB\) belongs to no clip.*leaves them there/);
});

test('an earlier book that was set aside is named, for a removal does not reach it', () => {
  const book = newBook();
  addSample(book, 'Robin');
  const path = join(book.folder, 'book.sqlite');
  renameSync(path, `${path}-mine`);
  writeFileSync(path, 'another file');
  expectThrown(() => addSample(book, 'Not taken'), 'book-missing');
  renameSync(`${path}-mine`, path);
  for (const { student } of book.listStudents()) book.removeStudent(student.id);
  writeFileSync(`${path}-wal.old-2`, '');
  const { aside } = findStrays(book);
  expect([...aside].sort()).toEqual([`${path}-wal.old-2`, `${path}.kept`]);
  // It does hold the name.
  expect(readFileSync(`${path}.kept`).includes('Robin')).toBe(true);
  const [said = ''] = straySentences({ unnamed: [], lost: [], aside: [`${path}.kept`] }, book.media.path);
  expect(said).toContain(`${path}.kept`);
  expect(said).toMatch(/Students whom you removed may still be in it\. Delete it/);
});

function findFiles(book: ReturnType<typeof newBook>) {
  return book.database.all(v.strictObject({ file: v.string() }), "SELECT file FROM clip WHERE stored = 'copied'");
}

function reopened(book: ReturnType<typeof newBook>) {
  book.close();
  return reopen(book.folder);
}
