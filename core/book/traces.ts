import * as v from 'valibot';
import type { BookDatabase } from './database.ts';

export interface TraceOperations {
  /** Whether the program may keep something, outside of the book, of what was removed from it. */
  hasTracesOutside(): boolean;
  /** The program has nothing any more of what had been removed. */
  forgetTracesOutside(): void;
}

const placeRow = v.strictObject({ place: v.picklist(['book', 'program']) });

export function traceOperations(database: BookDatabase): TraceOperations {
  return {
    hasTracesOutside: () => isNoted(database, 'program'),
    forgetTracesOutside: () => forget(database, 'program'),
  };
}

/** To be called in the transaction that removes rows. */
export function noteTraces(database: BookDatabase): void {
  database.run("INSERT OR IGNORE INTO trace (place) VALUES ('book'), ('program')");
}

/**
 * Leaves nothing in the book's file of what was removed from it. Deleted cells are overwritten at once (`secure_delete`),
 * but a row that was moved within its page may have left a copy behind, and the journal holds pages as they were. The
 * book holds no video, so writing all of it anew takes little time. Where it cannot be done (no room, a reader by other
 * means) it is done at the next opening: the removal itself stands.
 */
export function clearTracesInBook(database: BookDatabase): void {
  if (!isNoted(database, 'book')) return;
  try {
    if (database.writeAnew()) forget(database, 'book');
  } catch {
    // Still noted.
  }
}

function isNoted(database: BookDatabase, place: 'book' | 'program'): boolean {
  return database.one(placeRow, 'SELECT place FROM trace WHERE place = ?', place) !== null;
}

function forget(database: BookDatabase, place: 'book' | 'program'): void {
  database.run('DELETE FROM trace WHERE place = ?', place);
}
