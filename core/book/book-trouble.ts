import { say } from '../model/say.ts';
import { writingTrouble } from '../files/file-trouble.ts';
import { AppError } from '../model/errors.ts';
import type { ErrorDetail } from '../model/errors.ts';

function sqliteCodeOf(error: unknown): string | null {
  if (!(error instanceof Error) || !('code' in error)) return null;
  return typeof error.code === 'string' && error.code.startsWith('SQLITE_') ? error.code : null;
}

/**
 * What SQLite or the system said about the book's file, as a sentence for people. An error that is neither's, or that
 * only a mistake of ours can cause (a broken rule of a table, bad SQL), is handed back as it is.
 */
export function bookTrouble(error: unknown, path: string): unknown {
  const code = sqliteCodeOf(error);
  if (code === null) return writingTrouble(error, path);
  const options = { cause: error, detail: { path, code } };
  if (code === 'SQLITE_FULL')
    return new AppError(
      'disk-full',
      say`The disk is full: the last change was not saved in ${path}. Make room on it.`,
      options,
    );
  if (code === 'SQLITE_NOTADB' || code.startsWith('SQLITE_CORRUPT')) return damagedBook(path, options);
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED'))
    return new AppError('book-in-use', say`Another program is using ${path}. Close it and try again.`, options);
  if (code.startsWith('SQLITE_READONLY') || code.startsWith('SQLITE_CANTOPEN') || code === 'SQLITE_PERM')
    return new AppError('not-writable', say`Baybook may not write ${path}. Choose a folder you may write to.`, options);
  if (code.startsWith('SQLITE_IOERR'))
    return new AppError(
      'not-writable',
      say`The disk refused a change to ${path}; it was not saved. Check the disk.`,
      options,
    );
  return error;
}

/** The book's file is not what a book is. Says where it is, `why` if that is known, and that it was left alone. */
export function damagedBook(
  path: string,
  { why, ...options }: { why?: string; cause?: unknown; detail?: ErrorDetail } = {},
): AppError {
  return new AppError(
    'book-damaged',
    say`${path} ${why ?? say`is damaged or is not a book`}. Nothing in it was changed: put a backup in its place, or open another folder.`,
    options,
  );
}
