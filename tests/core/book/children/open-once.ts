import { openBook } from '../../../../core/book/open-book.ts';
import { AppError } from '../../../../core/model/errors.ts';

/** Opens and closes the book given as first argument, and prints how that went. */
try {
  openBook(process.argv[2] ?? '').close();
  console.log('opened');
} catch (error) {
  console.log(error instanceof AppError ? error.code : error);
}
