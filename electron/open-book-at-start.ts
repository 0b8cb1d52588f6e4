import { say } from '../core/model/say.ts';
import { app, dialog } from 'electron';
import { openBook } from '../core/book/open-book.ts';
import type { Book } from '../core/book/open-book.ts';
import { AppError } from '../core/model/errors.ts';

const QUIT = 0;
const BEGIN = 1;

/**
 * Opens the book of the coach. Where one was and its file is gone, a new one is only begun when the coach says so; else the
 * program ends.
 *
 * @throws AppError as `openBook`, but for `book-missing`.
 */
export async function openBookAtStart(folder: string): Promise<Book> {
  try {
    return openBook(folder, { onPutBack: tell });
  } catch (cause) {
    if (!(cause instanceof AppError) || cause.code !== 'book-missing') throw cause;
    process.stderr.write(`${cause.message}\n`);
    const { response } = await dialog.showMessageBox({
      ...{ type: 'warning', title: 'Baybook', message: say`The book is missing`, detail: cause.message },
      ...{ buttons: [say`Quit`, say`Begin a new book`], defaultId: QUIT, cancelId: QUIT, noLink: true },
    });
    if (response === BEGIN) return openBook(folder, { beginNew: true, onPutBack: tell });
    app.exit(1);
    throw cause;
  }
}

/** Beside the window, which goes on. */
function tell(sentence: string): void {
  process.stderr.write(`${sentence}\n`);
  void dialog.showMessageBox({ type: 'warning', title: 'Baybook', message: 'Baybook', detail: sentence });
}
