import type { Migration } from '../migrate.ts';

/**
 * Which body points stand where they were proposed: how far such a place lies from the coach's own, standard deviation in
 * pixels; null: a hand placed it. With this version edits may also hold such points, which programs up to version 14 cannot
 * read.
 */
export const proposedPoints: Migration = {
  version: 15,
  sql: 'ALTER TABLE placed_point ADD COLUMN guess REAL CHECK (guess > 0);',
};
