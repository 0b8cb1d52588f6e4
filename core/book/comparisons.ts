import * as v from 'valibot';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { BookDatabase } from './database.ts';
import { noSuch } from './no-such.ts';

export interface ComparisonOperations {
  /** The swing that this one was last compared with, or null. */
  thenOf(swingId: string): string | null;
  /**
   * Remembers what a swing is compared with, or (null) that it is with none.
   * @throws AppError `no-such-record` when either is not there, `bad-request` when they are the same.
   */
  rememberThen(swingId: string, thenId: string | null): void;
}

const thenRow = v.strictObject({ then_id: v.string() });

export function comparisonOperations(database: BookDatabase): ComparisonOperations {
  return {
    thenOf(swingId) {
      const row = database.one(thenRow, 'SELECT then_id FROM comparison WHERE swing_id = ?', swingId);
      return row?.then_id ?? null;
    },

    rememberThen(swingId, thenId) {
      if (swingId === thenId) throw new AppError('bad-request', say`A swing cannot be compared with itself.`);
      database.write(() => {
        for (const id of thenId === null ? [swingId] : [swingId, thenId])
          if (database.one(v.unknown(), 'SELECT id FROM swing WHERE id = ?', id) === null) throw noSuch('swing', id);
        if (thenId === null) database.run('DELETE FROM comparison WHERE swing_id = ?', swingId);
        else database.run('INSERT OR REPLACE INTO comparison (swing_id, then_id) VALUES (?, ?)', swingId, thenId);
      });
    },
  };
}
