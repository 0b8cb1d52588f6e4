import type { Migration } from '../migrate.ts';

/**
 * Where something of what was removed may still be found: `book` is this file itself (pages that are not in use, the
 * journal), `program` what the program keeps beside it. Noted together with the removal, so that a kill forgets nothing.
 * Of what was removed before this version nothing is known, so both are looked after once.
 */
export const traces: Migration = {
  version: 9,
  sql: `
    CREATE TABLE trace (place TEXT NOT NULL PRIMARY KEY CHECK (place IN ('book', 'program'))) STRICT, WITHOUT ROWID;
    INSERT INTO trace (place) VALUES ('book'), ('program');
  `,
};
