import type { Migration } from '../migrate.ts';

/**
 * What was put right in the talk-through of a swing (core/model/talk.ts), as JSON, at most one a swing; the recording itself
 * lies in files. With this version edits may also be of a talk-through, which programs up to version 12 cannot read.
 */
export const talkEdits: Migration = {
  version: 13,
  sql: `
    CREATE TABLE talk_edits (
      swing_id TEXT NOT NULL PRIMARY KEY REFERENCES swing (id) ON DELETE CASCADE,
      content TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;
  `,
};
