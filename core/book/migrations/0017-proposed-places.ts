import type { Migration } from '../migrate.ts';

/**
 * Where a point had been proposed, with what was assumed of it, as JSON (core/model/mark.ts); null: nothing was proposed, or by a
 * version that did not keep it. Corrections of proposals from before `begun` (an instant of UTC, ISO 8601) do not count: the coach
 * began anew. With this version edits may also hold such points, which programs up to version 16 cannot read.
 */
export const proposedPlaces: Migration = {
  version: 17,
  sql: `
    ALTER TABLE placed_point ADD COLUMN proposed TEXT CHECK (json_valid(proposed));
    CREATE TABLE learning (
      one INTEGER PRIMARY KEY CHECK (one = 1),
      begun TEXT NOT NULL
    ) STRICT;
  `,
};
