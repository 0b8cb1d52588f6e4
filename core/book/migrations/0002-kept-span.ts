import type { Migration } from '../migrate.ts';

/**
 * A clip may be a part of the file that the coach chose: its frame 0 is then frame `kept_first` of the `kept_of` frames
 * of that file. Both are NULL for a whole clip, as all were before.
 */
export const keptSpan: Migration = {
  version: 2,
  sql: `
    ALTER TABLE clip ADD COLUMN kept_first INTEGER CHECK (kept_first >= 0);
    ALTER TABLE clip ADD COLUMN kept_of INTEGER CHECK (
      (kept_of IS NULL) = (kept_first IS NULL) AND (kept_of IS NULL OR kept_first + frame_count <= kept_of)
    );
  `,
};
