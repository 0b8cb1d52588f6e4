import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { openBook } from '../../../core/book/open-book.ts';
import type { Book } from '../../../core/book/open-book.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

/** A new book in a folder of its own; closed and deleted when the test ends. */
export function newBook(): Book {
  return reopen(join(temporaryFolder(), 'book'));
}

/** The book in `folder`, closed when the test ends. */
export function reopen(folder: string): Book {
  const book = openBook(folder);
  onTestFinished(() => {
    book.close();
  });
  return book;
}
