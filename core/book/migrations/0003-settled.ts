import type { Migration } from '../migrate.ts';

/**
 * Whether a clip's frame table was held against a decode of all of it. Until now that was done before a clip came in;
 * from now on it comes afterwards, with the first pass over the clip.
 */
export const settledTable: Migration = {
  version: 3,
  sql: 'ALTER TABLE clip_frames ADD COLUMN settled INTEGER NOT NULL DEFAULT 1 CHECK (settled IN (0, 1));',
};
