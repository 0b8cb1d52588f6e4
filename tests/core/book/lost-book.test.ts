import { cpSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, onTestFinished, test } from 'vitest';
import { openBook } from '../../../core/book/open-book.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const RESTORE = /Put a backup of that file in its place, choose another folder, or begin a new book there\./;

/** A closed book with a student, and its file. */
function closedBook() {
  const book = newBook();
  const { student } = addSample(book);
  book.close();
  return { folder: book.folder, path: join(book.folder, 'book.sqlite'), student };
}

const namesIn = (path: string): unknown => {
  const sqlite = new Sqlite(path, { readonly: true });
  onTestFinished(() => void sqlite.close());
  expect(sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
  return sqlite.prepare('SELECT first_name FROM student ORDER BY number').pluck().all();
};

describe('a folder that had a book does not silently get a new one', () => {
  test('where the file is empty', () => {
    const { folder, path } = closedBook();
    truncateSync(path, 0);
    expectThrown(() => openBook(folder), 'book-missing', /book\.sqlite is empty/);
    expectThrown(() => openBook(folder), 'book-missing', RESTORE);
    expect(readFileSync(path)).toHaveLength(0);
  });

  test('where the file is gone, and clips are left', () => {
    const { folder, path } = closedBook();
    rmSync(path);
    writeFileSync(join(folder, 'media', 'one.mp4'), 'a clip');
    expectThrown(() => openBook(folder), 'book-missing', /book\.sqlite is missing\. .*1 clip\) was not touched/);
    expect(readdirSync(folder).sort()).toEqual(['book.lock', 'media']);
  });

  test('where only its journal is left', () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'book.sqlite-wal'), 'changes');
    expectThrown(() => openBook(folder), 'book-missing', /changes in a journal/);
    expect(readFileSync(join(folder, 'book.sqlite-wal'), 'utf8')).toBe('changes');
  });

  test('but on purpose it does, and what was left stays', () => {
    const { folder, path } = closedBook();
    rmSync(path);
    writeFileSync(join(folder, 'media', 'one.mp4'), 'a clip');
    writeFileSync(`${path}-wal`, 'changes');
    const book = openBook(folder, { beginNew: true });
    expect(book.listStudents()).toEqual([]);
    book.close();
    expect(readFileSync(join(folder, 'media', 'one.mp4'), 'utf8')).toBe('a clip');
    expect(readFileSync(`${path}-wal.old`, 'utf8')).toBe('changes');
    expect(reopen(folder).listStudents()).toEqual([]);
  });
});

describe('while the book is open', () => {
  const opened = () => {
    const { folder, path } = closedBook();
    const told: string[] = [];
    const book = openBook(folder, { onPutBack: (sentence) => told.push(sentence) });
    onTestFinished(() => {
      try {
        book.close();
      } catch {
        // Its folder is gone by now.
      }
    });
    return { folder, path, book, told };
  };

  test.each([
    ['book.sqlite', ['book.sqlite']],
    ['all of its files', ['book.sqlite', 'book.sqlite-wal', 'book.sqlite-shm', 'book.lock']],
  ])('%s deleted: the next change puts the book back with all that was saved, and it is said', (_, files) => {
    const { folder, path, book, told } = opened();
    addSample(book, 'Before');
    for (const file of files) rmSync(join(folder, file));
    addSample(book, 'After');
    expect(told).toEqual([expect.stringMatching(/was removed while Baybook was open.*put it back/)]);
    addSample(book, 'Later');
    expectThrown(() => openBook(folder), 'book-in-use');
    book.close();
    expect(told).toHaveLength(1);
    // A reader leaves an empty journal.
    expect(readdirSync(folder).sort()).toEqual(['book.lock', 'book.sqlite', 'media']);
    expect(namesIn(path)).toEqual(['Robin', 'Before', 'After', 'Later']);
    expect(reopen(folder).listStudents()).toHaveLength(4);
  });

  test('deleted, and nothing more is written: the end puts it back', () => {
    const { path, book } = opened();
    addSample(book, 'Before');
    rmSync(path);
    book.close();
    expect(namesIn(path)).toEqual(['Robin', 'Before']);
  });

  test('replaced by another book: that one is not touched, the open one is kept beside it, and it is said', () => {
    const other = newBook();
    addSample(other, 'Other');
    other.close();
    const { folder, path, book, told } = opened();
    addSample(book, 'Before');
    rmSync(path);
    cpSync(join(other.folder, 'book.sqlite'), path);
    const trouble = expectThrown(() => addSample(book, 'After'), 'book-missing', /replaced by another file/);
    expect(trouble.message).toContain(`${path}.kept`);
    expectThrown(() => addSample(book, 'Again'), 'book-missing');
    expectThrown(() => {
      book.close();
    }, 'book-missing');
    expect(told).toEqual([]);
    expect(readdirSync(folder).sort()).toEqual(['book.lock', 'book.sqlite', 'book.sqlite.kept', 'media']);
    expect(namesIn(path)).toEqual(['Other']);
    expect(namesIn(`${path}.kept`)).toEqual(['Robin', 'Before']);
    expect(reopen(folder).listStudents()).toHaveLength(1);
  });

  test('replaced, put right again, and later deleted: what was written in between is put back too', () => {
    const { folder, path, book } = opened();
    renameSync(path, `${path}-mine`);
    writeFileSync(path, 'another file');
    expectThrown(() => addSample(book, 'Not taken'), 'book-missing');
    renameSync(`${path}-mine`, path);
    addSample(book, 'Between');
    rmSync(path);
    addSample(book, 'After');
    book.close();
    expect(namesIn(path)).toEqual(['Robin', 'Between', 'After']);
    expect(reopen(folder).listStudents()).toHaveLength(3);
  });

  test('its folder moved away: no change is taken, none is lost that was saved, and it goes on once it is back', () => {
    const { folder, book } = opened();
    addSample(book, 'Before');
    renameSync(folder, `${folder}-away`);
    expectThrown(() => addSample(book, 'After'), 'book-missing', /folder of .* is gone.*try again/);
    // As a disk that was pulled out leaves it.
    mkdirSync(folder);
    expectThrown(() => addSample(book, 'After'), 'book-missing', /folder of/);
    rmSync(folder, { recursive: true });
    renameSync(`${folder}-away`, folder);
    addSample(book, 'After');
    expect(book.listStudents()).toHaveLength(3);
    book.close();
    expect(namesIn(join(folder, 'book.sqlite'))).toEqual(['Robin', 'Before', 'After']);
  });
});

describe('what is wrong with a book is told as what it is, and nothing is changed', () => {
  const changed = (sql: string) => {
    const { folder, path } = closedBook();
    const sqlite = new Sqlite(path);
    sqlite.exec(sql);
    sqlite.pragma('wal_checkpoint(TRUNCATE)');
    sqlite.close();
    return { folder, path, before: readFileSync(path) };
  };

  test.each([
    ['PRAGMA user_version = 0', /of version 0, which no book is/],
    ['PRAGMA user_version = -1', /of version -1, which no book is/],
    ['PRAGMA foreign_keys = OFF; DROP TABLE marked_frame', /the table “marked_frame” is missing/],
    ['PRAGMA foreign_keys = OFF; DROP TABLE student', /the table “student” is missing/],
    ['DROP INDEX lesson_by_student', /the index “lesson_by_student” is missing/],
    ['ALTER TABLE clip RENAME COLUMN bytes TO octets', /the column “bytes” of the table “clip” is missing/],
  ])('%s', (sql, sentence) => {
    const { folder, path, before } = changed(sql);
    expectThrown(() => openBook(folder), 'book-damaged', sentence);
    expectThrown(() => openBook(folder), 'book-damaged', /Nothing in it was changed: put a backup/);
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  test('a lock file that is none', () => {
    const { folder, path } = closedBook();
    const before = readFileSync(path);
    const lock = join(folder, 'book.lock');
    writeFileSync(lock, 'Dear diary, today I hit the driver. '.repeat(40));
    expectThrown(() => openBook(folder), 'book-lock-damaged', /book\.lock is not the file .* remove it and start/);
    rmSync(lock);
    mkdirSync(lock);
    expectThrown(() => openBook(folder), 'book-lock-damaged', /book\.lock is a folder .* remove it and start/);
    expect(readFileSync(path).equals(before)).toBe(true);
    rmSync(lock, { recursive: true });
    expect(reopen(folder).listStudents()).toHaveLength(1);
  });

  test('a file where the clips should be, also before there is a book', () => {
    const { folder } = closedBook();
    rmSync(join(folder, 'media'), { recursive: true });
    writeFileSync(join(folder, 'media'), 'a file');
    expectThrown(() => openBook(folder), 'book-damaged', /media is a file\. .*move the file away/);
    const bare = temporaryFolder();
    writeFileSync(join(bare, 'media'), 'a file');
    expectThrown(() => openBook(bare), 'book-damaged', /media is a file\. .*move the file away/);
    expect(readdirSync(bare).sort()).toEqual(['book.lock', 'media']);
  });
});
