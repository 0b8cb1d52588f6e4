import { statSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { bookTrouble } from './book-trouble.ts';

export interface BookLock {
  release(): void;
}

/**
 * Takes the book for this program alone, or says that another has it. The lock is SQLite's own exclusive lock on an
 * empty side file: the system takes it back when the process ends, however it ends, so a kill leaves nothing to clear
 * up. It is a side file, and not the book itself, so that a reader (`readOnly`) can still look at the book meanwhile.
 *
 * On POSIX such a lock is lost when its own process opens and closes the same file by other means: nobody may read
 * `book.lock`, not even to copy it.
 *
 * @throws AppError `book-in-use`, `book-lock-damaged`, `not-writable`.
 */
export function takeBookLock(lockPath: string, folder: string, options: Sqlite.Options): BookLock {
  refuseOtherFile(lockPath);
  let database: Sqlite.Database | null = null;
  try {
    database = new Sqlite(lockPath, { ...options, timeout: 0 });
    // Nothing is ever written to it, so no journal is needed, and none may be left behind by a kill.
    database.pragma('journal_mode = MEMORY');
    database.exec('BEGIN EXCLUSIVE');
    const held = database;
    return { release: () => held.close() };
  } catch (error) {
    database?.close();
    const trouble = bookTrouble(error, lockPath);
    if (trouble instanceof AppError && trouble.code === 'book-in-use')
      throw new AppError(
        'book-in-use',
        say`The book in ${folder} is already open in another Baybook. Close that one, or wait until it is done.`,
        { cause: error, detail: { folder } },
      );
    if (trouble instanceof AppError && trouble.code === 'book-damaged')
      throw notTheLock(lockPath, say`is not the file`, error);
    throw trouble;
  }
}

function refuseOtherFile(lockPath: string): void {
  const standing = statSync(lockPath, { throwIfNoEntry: false });
  if (standing === undefined || standing.isFile()) return;
  throw notTheLock(
    lockPath,
    standing.isDirectory() ? say`is a folder in the place of the file` : say`is no file like the one`,
  );
}

/** Not damage to the book: nothing of it lies there. */
function notTheLock(lockPath: string, what: string, cause?: unknown): AppError {
  return new AppError(
    'book-lock-damaged',
    say`${lockPath} ${what} that Baybook keeps there. It holds nothing of the book: remove it and start Baybook again.`,
    { cause, detail: { path: lockPath } },
  );
}
