import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, readdirSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import { openBook } from '../../../core/book/open-book.ts';
import { BOOK_APPLICATION_ID } from '../../../core/book/migrate.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const ANY = v.unknown();

/**
 * The book's file and its journal with a digest, to see that nothing was changed. A reader leaves an empty journal and
 * an index of it (-shm), which hold nothing.
 */
const contentOf = (folder: string) =>
  ['book.sqlite', 'book.sqlite-wal']
    .map((name) => join(folder, name))
    .filter((path) => (statSync(path, { throwIfNoEntry: false })?.size ?? 0) > 0)
    .map((path) => [path, createHash('sha256').update(readFileSync(path)).digest('hex')]);

describe('opening', () => {
  test('a book is one folder with a SQLite file and a media folder, made with the folders above it', () => {
    const folder = join(temporaryFolder(), 'deep', 'down', 'My book ü');
    const book = reopen(folder);
    expect(book.folder).toBe(folder);
    expect(readdirSync(folder)).toEqual(expect.arrayContaining(['book.sqlite', 'media']));
    book.close();
    expect(readdirSync(folder)).toEqual(['book.lock', 'book.sqlite', 'media']);
  });

  test('a book is kept so that what was stored outlives a power cut', () => {
    const book = newBook();
    const pragma = (name: string) => book.database.one(ANY, `PRAGMA ${name}`);
    expect([pragma('journal_mode'), pragma('synchronous'), pragma('foreign_keys')]).toEqual([
      { journal_mode: 'wal' },
      { synchronous: 2 },
      { foreign_keys: 1 },
    ]);
    const strict = book.database.all(ANY, "SELECT name FROM pragma_table_list WHERE schema = 'main' AND strict = 0");
    expect(strict).toEqual([{ name: 'sqlite_schema' }]);
  });

  test('closing twice is closing once, and a closed book does nothing more', () => {
    const book = newBook();
    book.close();
    book.close();
    expect(() => book.listStudents()).toThrow(/not open/);
  });

  test('an empty file where the book should be becomes a book', () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'book.sqlite'), '');
    expect(reopen(folder).listStudents()).toEqual([]);
  });

  test('a folder that cannot be made is named', () => {
    const file = join(temporaryFolder(), 'file');
    writeFileSync(file, 'in the way');
    expectThrown(() => openBook(join(file, 'book')), 'not-writable', /file/);
    expectThrown(() => openBook(file), 'file-exists', /file/);
  });
});

describe('a file that is no whole book is refused, named, and not changed by a byte', () => {
  const spoiled = (spoil: (path: string) => void): string => {
    const book = newBook();
    book.database.write(() => {
      for (let round = 0; round < 60; round += 1) addSample(book, `Student ${String(round)}`);
    });
    book.close();
    spoil(join(book.folder, 'book.sqlite'));
    return book.folder;
  };
  const noise = Buffer.alloc(8192, 0xa5);

  test.each<[string, (path: string) => void]>([
    ['text', (path) => writeFileSync(path, 'Dear diary, today I hit the driver.')],
    ['noise', (path) => writeFileSync(path, noise)],
    ['a cut file', (path) => truncateSync(path, Math.floor(statSync(path).size / 2))],
    [
      'an overwritten page',
      (path) => {
        const bytes = readFileSync(path);
        noise.copy(bytes, 4096, 0, 4096);
        writeFileSync(path, bytes);
      },
    ],
    [
      'a database of something else',
      (path) => {
        writeFileSync(path, '');
        const other = new Sqlite(path);
        other.exec('CREATE TABLE recipe (title TEXT)');
        other.close();
      },
    ],
  ])('%s', (_, spoil) => {
    const folder = spoiled(spoil);
    const before = contentOf(folder);
    const trouble = expectThrown(() => openBook(folder), 'book-damaged', /Nothing in it was changed/);
    expect(trouble.message).toContain(join(folder, 'book.sqlite'));
    expect(contentOf(folder)).toEqual(before);
  });

  test('a folder in its place', () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'book.sqlite'));
    expectThrown(() => openBook(folder), 'book-damaged');
  });

  test('a newer book, even one whose last change still lies in the journal', () => {
    const book = newBook();
    addSample(book);
    const copy = join(temporaryFolder(), 'copy');
    book.database.run('PRAGMA user_version = 99');
    // Copied while open, so that the journal still holds the change. The lock must not be read: see book-lock.ts.
    cpSync(book.folder, copy, { recursive: true, filter: (source) => !source.endsWith('book.lock') });
    expect(readdirSync(copy)).toContain('book.sqlite-wal');
    const before = contentOf(copy);
    const trouble = expectThrown(() => openBook(copy), 'book-newer', /newer Baybook.*update Baybook/);
    expect(trouble.detail).toMatchObject({ version: 99 });
    expect(contentOf(copy)).toEqual(before);
  });

  test('a refused book can be opened once it is put right', () => {
    const book = newBook();
    const { student } = addSample(book);
    book.close();
    const path = join(book.folder, 'book.sqlite');
    const whole = readFileSync(path);
    writeFileSync(path, noise);
    expectThrown(() => openBook(book.folder), 'book-damaged');
    writeFileSync(path, whole);
    expect(reopen(book.folder).listStudents()[0]?.student).toEqual(student);
  });

  test('one row that is no record is named and the rest can still be read', () => {
    const book = newBook();
    const { student, swing } = addSample(book);
    book.close();
    const sqlite = new Sqlite(join(book.folder, 'book.sqlite'));
    sqlite.prepare("UPDATE swing SET id = 'not an id'").run();
    sqlite.close();
    const again = reopen(book.folder);
    expectThrown(() => again.listStudents(), 'book-damaged', /id must be a UUID/);
    expect(again.changeStudent(student.id, student)).toEqual(student);
    expectThrown(() => again.removeSwing(swing.id), 'no-such-record');
  });
});

describe('one program at a time', () => {
  test('a second opening in the same program is refused until the first is closed', () => {
    const book = newBook();
    expectThrown(() => openBook(book.folder), 'book-in-use', /already open in another Baybook/);
    book.close();
    reopen(book.folder).close();
  });

  test('a second program is refused, and the first goes on undisturbed', () => {
    const book = newBook();
    const child = join(import.meta.dirname, 'children', 'open-once.ts');
    const open = () => execFileSync(process.execPath, [child, book.folder], { encoding: 'utf8' });
    expect(open()).toBe('book-in-use\n');
    addSample(book);
    expect(open()).toBe('book-in-use\n');
    book.close();
    expect(open()).toBe('opened\n');
  });

  test('a reader by other means may look at an open book', () => {
    const book = newBook();
    addSample(book, 'Robin');
    const reader = new Sqlite(join(book.folder, 'book.sqlite'), { readonly: true });
    expect(reader.prepare('SELECT first_name FROM student').pluck().all()).toEqual(['Robin']);
    expect(reader.pragma('application_id', { simple: true })).toBe(BOOK_APPLICATION_ID);
    addSample(book, 'Ash');
    reader.close();
    expect(book.listStudents()).toHaveLength(2);
  });
});
