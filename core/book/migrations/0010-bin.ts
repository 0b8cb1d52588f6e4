import type { Migration } from '../migrate.ts';

/**
 * What was removed and can still be put back: the rows that went, as JSON (row-tree.ts), and which copies of clips they
 * name, so that those stay as long. `removed_at` is an instant of UTC, ISO 8601 with milliseconds.
 */
export const bin: Migration = {
  version: 10,
  sql: `
    CREATE TABLE bin_entry (
      number INTEGER PRIMARY KEY,
      id TEXT NOT NULL UNIQUE,
      kind TEXT NOT NULL CHECK (kind IN ('student', 'lesson', 'swing', 'clip')),
      name TEXT NOT NULL,
      removed_at TEXT NOT NULL,
      rows TEXT NOT NULL
    ) STRICT;

    CREATE TABLE bin_file (
      entry_id TEXT NOT NULL REFERENCES bin_entry (id) ON DELETE CASCADE,
      file TEXT NOT NULL,
      PRIMARY KEY (entry_id, file)
    ) STRICT, WITHOUT ROWID;
  `,
};
