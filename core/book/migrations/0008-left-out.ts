import type { Migration } from '../migrate.ts';

/**
 * A clip's index counts the pictures of its file that are no frames. Of the clips that are in the book already nobody
 * counted them: null.
 */
export const leftOutPictures: Migration = {
  version: 8,
  sql: `UPDATE clip_frames SET facts = json_set(facts, '$.leftOut', NULL);`,
};
