import type { Migration } from '../migrate.ts';

/**
 * The coach's own pattern, as the JSON of a pattern file (resources/pattern.schema.json). At most one is in use; without
 * any the one that ships with the program is. One that could not be read when another took its place is set aside.
 */
export const ownPattern: Migration = {
  version: 6,
  sql: `
    CREATE TABLE pattern (
      number INTEGER PRIMARY KEY,
      aside INTEGER NOT NULL CHECK (aside IN (0, 1)),
      content TEXT NOT NULL
    ) STRICT;
    CREATE UNIQUE INDEX pattern_in_use ON pattern (aside) WHERE aside = 0;
  `,
};
