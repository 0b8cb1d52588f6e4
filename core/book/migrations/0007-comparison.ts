import type { Migration } from '../migrate.ts';

/**
 * What a swing was last compared with. A choice of what is looked at and no edit of the lesson: it is not taken back with
 * the others, and goes with either of the two swings.
 */
export const comparison: Migration = {
  version: 7,
  sql: `
    CREATE TABLE comparison (
      swing_id TEXT NOT NULL PRIMARY KEY REFERENCES swing (id) ON DELETE CASCADE,
      then_id TEXT NOT NULL REFERENCES swing (id) ON DELETE CASCADE,
      CHECK (swing_id <> then_id)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX comparison_by_then ON comparison (then_id);
  `,
};
