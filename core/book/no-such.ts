import { AppError } from '../model/errors.ts';

/** Nothing in the book has that id; most often it was removed in the meantime. */
export function noSuch(what: 'student' | 'lesson' | 'swing' | 'clip' | 'repeat check', id: string): AppError {
  return new AppError('no-such-record', `That ${what} is not in the book any more.`, { detail: { what, id } });
}
