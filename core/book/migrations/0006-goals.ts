import type { Migration } from '../migrate.ts';

/**
 * The coach's own goals, as the JSON of a goals file (resources/goals.schema.json). At most one is in use; without
 * any those that ship with the program are. Goals that could not be read when others took their place are set aside.
 * The table keeps the word that goals had first: books of before have it.
 */
export const ownGoals: Migration = {
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
