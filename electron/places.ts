import { join, resolve } from 'node:path';

/** Where the program keeps things, decided before anything is opened. Absolute paths. */
export interface Places {
  readonly book: string;
  /** Null: the system's usual place for Baybook's settings. */
  readonly userData: string | null;
}

/**
 * The book lies in `BAYBOOK_BOOK`, else in a folder of the coach's Documents; user data in `BAYBOOK_USER_DATA` if set.
 * Empty variables count as not set. `documents` is a function because some systems have to look it up.
 */
export function choosePlaces(env: Readonly<Record<string, string | undefined>>, documents: () => string): Places {
  const book = env['BAYBOOK_BOOK'] ?? '';
  const userData = env['BAYBOOK_USER_DATA'] ?? '';
  return {
    book: book === '' ? join(documents(), 'Baybook') : resolve(book),
    userData: userData === '' ? null : resolve(userData),
  };
}
