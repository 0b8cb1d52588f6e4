import type { Book } from '../book/book.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { placingErrorsOf } from '../measure/repeat/placing-spread.ts';

/**
 * The coach's own placing errors, from every placing of all repeat checks that the book keeps; worked out anew each
 * time. Without a check the assumed ones.
 */
export function placingOfBook(book: Book): PlacingErrors {
  return placingErrorsOf(book.listRepeatChecks().flatMap(({ frames }) => frames));
}
