import { existsSync, mkdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import Sqlite from 'better-sqlite3';
import { say } from '../model/say.ts';
import { writingTrouble } from '../files/file-trouble.ts';
import { AppError } from '../model/errors.ts';
import type { Book } from './book.ts';
import { takeBookLock } from './book-lock.ts';
import { putBackSentence } from './book-place.ts';
import { binOperations } from './bin.ts';
import { bookTrouble } from './book-trouble.ts';
import { checkpointOperations } from './checkpoints.ts';
import { clipOperations } from './clips.ts';
import { BookDatabase } from './database.ts';
import { editOperations } from './edits.ts';
import { inspectBookFile } from './inspect-book-file.ts';
import { lessonPageOperations } from './lesson-pages.ts';
import { lessonOperations } from './lessons.ts';
import { markOperations } from './marks.ts';
import { MediaFolder } from './media-folder.ts';
import { TalkFolders } from './talk-folders.ts';
import { talkOperations } from './talks.ts';
import { migrate } from './migrate.ts';
import { refuseToReplaceMissing, setJournalAside } from './missing-book.ts';
import { MIGRATIONS } from './migrations/all.ts';
import { goalsOperations } from './goals.ts';
import { comparisonOperations } from './comparisons.ts';
import { correctionOperations } from './corrections.ts';
import { pinOperations } from './pins.ts';
import { repeatCheckOperations } from './repeat-checks.ts';
import { settleOperations } from './settle-clip.ts';
import { partOperations } from './take-part.ts';
import { studentOperations } from './students.ts';
import { swingOperations } from './swings.ts';
import { clearTracesInBook, traceOperations } from './traces.ts';

export type { Book } from './book.ts';

export interface OpenBookOptions {
  /** Path of the SQLite binding for a runtime that the package's own does not serve; BAYBOOK_SQLITE_BINDING by default. */
  readonly nativeBinding?: string | undefined;
  /** Begins a new book also where one was whose file is gone; what is left of that one stays. */
  readonly beginNew?: boolean;
  /** Gets a sentence for the coach when the book's file was removed meanwhile, and was put back. */
  readonly onPutBack?: ((sentence: string) => void) | undefined;
}

/** How long one statement waits for a reader that holds the file, in milliseconds. */
const BUSY_TIMEOUT = 5000;

/**
 * Opens the book in `folder` (`book.sqlite`, `media/`, `talks/`), making the folder and the book where they are missing. One
 * program at a time has a book open. What a returned operation stored outlives a kill of the program and, on a disk
 * that keeps its word, a power cut.
 *
 * @throws AppError `book-in-use`, `book-newer`, `book-damaged` (the file was not changed), `book-missing` (the folder holds
 *   what is left of a book), `book-lock-damaged`, `not-writable`, `disk-full`.
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

  const lockPath = join(home, 'book.lock');
  let lock = takeBookLock(lockPath, home, sqliteOptions);
  const connect = (): Sqlite.Database => {
    const sqlite = new Sqlite(path, { ...sqliteOptions, timeout: BUSY_TIMEOUT });
    try {
      sqlite.pragma('journal_mode = WAL');
      sqlite.pragma('synchronous = FULL');
      sqlite.pragma('foreign_keys = ON');
      // What is deleted is overwritten, not only let go.
      sqlite.pragma('secure_delete = ON');
      migrate(sqlite, MIGRATIONS);
      return sqlite;
    } catch (error) {
      sqlite.close();
      throw error;
    }
  };
  const onPutBack = (): void => {
    // Who removed the book may have removed its lock as well; what is held then holds nobody off.
    if (!existsSync(lockPath)) {
      lock.release();
      lock = takeBookLock(lockPath, home, sqliteOptions);
    }
    options.onPutBack?.(putBackSentence(path));
  };

  let database: BookDatabase | null = null;
  try {
    refuseNoFolder(join(home, 'media'));
    if (options.beginNew !== true) refuseToReplaceMissing(home, path);
    else if ((statSync(path, { throwIfNoEntry: false })?.size ?? 0) === 0) setJournalAside(path);
    inspectBookFile(path, MIGRATIONS, sqliteOptions);
    database = new BookDatabase(path, connect, onPutBack);
    const talks = new TalkFolders(join(home, 'talks'), database);
    const media = new MediaFolder(join(home, 'media'), database, talks);
    media.prepare();
    clearTracesInBook(database);
    const opened = database;
    let open = true;
    return {
      folder: home,
      database,
      media,
      ...studentOperations(database, media),
      ...lessonOperations(database, media),
      ...lessonPageOperations(database),
      ...swingOperations(database, media),
      ...clipOperations(database, media),
      ...checkpointOperations(database),
      ...markOperations(database),
      ...pinOperations(database),
      ...comparisonOperations(database),
      ...goalsOperations(database),
      ...editOperations(database, media),
      ...repeatCheckOperations(database),
      ...correctionOperations(database),
      ...settleOperations(database),
      ...partOperations(database, media),
      ...binOperations(database, media),
      ...traceOperations(database),
      ...talkOperations(database, talks),
      close() {
        if (!open) return;
        open = false;
        try {
          opened.close();
        } finally {
          lock.release();
        }
      },
    };
  } catch (error) {
    database?.close();
    lock.release();
    throw bookTrouble(error, path);
  }
}

/** Before anything is written: a book would else be made that cannot keep a clip. */
function refuseNoFolder(media: string): void {
  const standing = statSync(media, { throwIfNoEntry: false });
  if (standing === undefined || standing.isDirectory()) return;
  throw new AppError(
    'book-damaged',
    say`${media} is a file. The book keeps its clips in a folder of that name: move the file away and start Baybook again.`,
    { detail: { path: media } },
  );
}
