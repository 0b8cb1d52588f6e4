import type { Book } from '../book/book.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { placingErrorsOfChecks } from '../measure/repeat/day-spread.ts';

/**
 * The coach's own placing errors, from every placing of all repeat checks that the book keeps; worked out anew each
 * time. Without a check the assumed ones.
 */
export function placingOfBook(book: Book): PlacingErrors {
  return placingErrorsOfChecks(book.listRepeatChecks());
}
