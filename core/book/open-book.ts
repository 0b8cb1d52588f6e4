import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import Sqlite from 'better-sqlite3';
import { writingTrouble } from '../files/file-trouble.ts';
import type { Book } from './book.ts';
import { takeBookLock } from './book-lock.ts';
import { bookTrouble } from './book-trouble.ts';
import { checkpointOperations } from './checkpoints.ts';
import { clipOperations } from './clips.ts';
import { BookDatabase } from './database.ts';
import { editOperations } from './edits.ts';
import { inspectBookFile } from './inspect-book-file.ts';
import { lessonOperations } from './lessons.ts';
import { markOperations } from './marks.ts';
import { MediaFolder } from './media-folder.ts';
import { migrate } from './migrate.ts';
import { MIGRATIONS } from './migrations/all.ts';
import { patternOperations } from './patterns.ts';
import { comparisonOperations } from './comparisons.ts';
import { pinOperations } from './pins.ts';
import { repeatCheckOperations } from './repeat-checks.ts';
import { settleOperations } from './settle-clip.ts';
import { studentOperations } from './students.ts';
import { swingOperations } from './swings.ts';

export type { Book } from './book.ts';

export interface OpenBookOptions {
  /** Path of the SQLite binding for a runtime that the package's own does not serve; BAYBOOK_SQLITE_BINDING by default. */
  readonly nativeBinding?: string | undefined;
}

/** How long one statement waits for a reader that holds the file, in milliseconds. */
const BUSY_TIMEOUT = 5000;

/**
 * Opens the book in `folder` (`book.sqlite` and `media/`), making the folder and the book where they are missing. One
 * program at a time has a book open. What a returned operation stored outlives a kill of the program and, on a disk
 * that keeps its word, a power cut.
 *
 * @throws AppError `book-in-use`, `book-newer`, `book-damaged` (the file was not changed), `not-writable`, `disk-full`.
 */
export function openBook(folder: string, options: OpenBookOptions = {}): Book {
  const home = resolve(folder);
  const path = join(home, 'book.sqlite');
  const nativeBinding = options.nativeBinding ?? process.env['BAYBOOK_SQLITE_BINDING'];
  const sqliteOptions: Sqlite.Options = nativeBinding === undefined ? {} : { nativeBinding };
  try {
    mkdirSync(home, { recursive: true });
  } catch (error) {
    throw writingTrouble(error, home);
  }

  const lock = takeBookLock(join(home, 'book.lock'), home, sqliteOptions);
  let sqlite: Sqlite.Database | null = null;
  try {
    inspectBookFile(path, MIGRATIONS, sqliteOptions);
    sqlite = new Sqlite(path, { ...sqliteOptions, timeout: BUSY_TIMEOUT });
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    sqlite.pragma('foreign_keys = ON');
    migrate(sqlite, MIGRATIONS);
    const database = new BookDatabase(sqlite, path);
    const media = new MediaFolder(join(home, 'media'), database);
    media.prepare();
    let open = true;
    return {
      folder: home,
      database,
      media,
      ...studentOperations(database, media),
      ...lessonOperations(database, media),
      ...swingOperations(database, media),
      ...clipOperations(database, media),
      ...checkpointOperations(database),
      ...markOperations(database),
      ...pinOperations(database),
      ...comparisonOperations(database),
      ...patternOperations(database),
      ...editOperations(database, media),
      ...repeatCheckOperations(database),
      ...settleOperations(database),
      close() {
        if (!open) return;
        open = false;
        database.close();
        lock.release();
      },
    };
  } catch (error) {
    sqlite?.close();
    lock.release();
    throw bookTrouble(error, path);
  }
}
