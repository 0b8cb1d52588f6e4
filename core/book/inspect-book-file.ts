import { statSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { missingPart } from './book-shape.ts';
import { bookTrouble, damagedBook } from './book-trouble.ts';
import { BOOK_APPLICATION_ID, newestVersion } from './migrate.ts';
import type { Migration } from './migrate.ts';

/**
 * Looks, without changing a byte, whether the file is a whole book of a version we know, with all its parts; a file that is
 * missing or empty is about to become one. Reads all of the file's pages: a book holds no video, so that takes milliseconds, and
 * damage is found before anything is written on top of it.
 *
 * @throws AppError `book-newer`, `book-damaged`, `not-writable`.
 */
export function inspectBookFile(path: string, migrations: readonly Migration[], options: Sqlite.Options): void {
  let database: Sqlite.Database | null = null;
  try {
    const facts = statSync(path, { throwIfNoEntry: false });
    if (facts === undefined || facts.size === 0) return;
    if (!facts.isFile()) throw damagedBook(path);
    database = new Sqlite(path, { ...options, readonly: true, fileMustExist: true });
    const version = Number(database.pragma('user_version', { simple: true }));
    const application = Number(database.pragma('application_id', { simple: true }));
    const tables = Number(database.prepare('SELECT count(*) FROM sqlite_schema').pluck().get());
    if (version === 0 && application === 0 && tables === 0) return;
    if (application !== BOOK_APPLICATION_ID) throw damagedBook(path);
    if (!(version >= 1))
      throw damagedBook(path, {
        why: say`says that it is of version ${version}, which no book is`,
        detail: { path, version },
      });
    if (version > newestVersion(migrations))
      throw new AppError(
        'book-newer',
        say`The book ${path} was written by a newer Baybook. Nothing in it was changed: update Baybook to open it.`,
        { detail: { path, version, newest: newestVersion(migrations) } },
      );
    if (database.pragma('quick_check(1)', { simple: true }) !== 'ok') throw damagedBook(path);
    const missing = missingPart(database, version, migrations, options);
    if (missing !== null) throw damagedBook(path, { why: say`is damaged: ${missing} is missing` });
  } catch (error) {
    throw bookTrouble(error, path);
  } finally {
    database?.close();
  }
}
