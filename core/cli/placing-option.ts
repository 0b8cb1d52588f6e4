import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { openBook } from '../book/open-book.ts';
import { placingOfBook } from '../jobs/placing-of-book.ts';
import { ASSUMED_PLACING } from '../measure/uncertainty/placing.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { AppError } from '../model/errors.ts';
import type { OptionSpec, ParsedArguments } from './command.ts';

/** For commands that read swing files: such a file does not say whose hand placed its points. */
export const BOOK_OPTION: OptionSpec = {
  type: 'string',
  value: 'DIR',
  help: 'count with your click error from the repeat checks in this book',
};

/** Without the option the assumed errors. @throws AppError `file-not-found`, and what opening a book may throw. */
export function placingOf(args: ParsedArguments): PlacingErrors {
  const folder = args.text('book');
  if (folder === undefined) return ASSUMED_PLACING;
  requireBookIn(folder);
  const book = openBook(folder);
  try {
    return placingOfBook(book);
  } finally {
    book.close();
  }
}

/** A mistyped folder must not become a new book. @throws AppError `file-not-found`. */
export function requireBookIn(folder: string): void {
  if (existsSync(join(folder, 'book.sqlite'))) return;
  throw new AppError('file-not-found', `There is no book in ${folder}. Give the folder that holds book.sqlite.`);
}
