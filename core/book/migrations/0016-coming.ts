import type { Migration } from '../migrate.ts';

/**
 * A part of a clip is in the book before it is cut. Then `file` is the whole clip where the coach keeps it, with its size
 * and time of change; `sha256` is its `contentMark`. The table of frames is that of the part. Programs up to version 15
 * would show the whole clip's first frames in its place.
 */
export const coming: Migration = {
  version: 16,
  sql: `
    ALTER TABLE clip ADD COLUMN coming INTEGER NOT NULL DEFAULT 0 CHECK (
      coming = 0 OR (coming = 1 AND stored = 'linked' AND kept_first IS NOT NULL)
    );
  `,
};
