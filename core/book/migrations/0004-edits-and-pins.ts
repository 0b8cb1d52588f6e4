import type { Migration } from '../migrate.ts';

/**
 * Edits of a lesson, kept so that they can be taken back on another day; `what` is the edit as JSON (core/model/edit.ts).
 * Readings that the coach wants on the stills. With this version marks may also hold free lines, paths, circles through
 * places and carried shapes, which programs up to version 3 cannot read.
 */
export const editsAndPins: Migration = {
  version: 4,
  sql: `
    CREATE TABLE edit (
      number INTEGER PRIMARY KEY,
      lesson_id TEXT NOT NULL REFERENCES lesson (id) ON DELETE CASCADE,
      swing_id TEXT NOT NULL REFERENCES swing (id) ON DELETE CASCADE,
      -- NULL for an edit of the swing as a whole.
      clip_id TEXT REFERENCES clip (id) ON DELETE CASCADE,
      undone INTEGER NOT NULL CHECK (undone IN (0, 1)),
      what TEXT NOT NULL
    ) STRICT;
    CREATE INDEX edit_by_lesson ON edit (lesson_id, undone, number);
    CREATE INDEX edit_by_swing ON edit (swing_id);
    CREATE INDEX edit_by_clip ON edit (clip_id);

    CREATE TABLE pinned_reading (
      swing_id TEXT NOT NULL REFERENCES swing (id) ON DELETE CASCADE,
      position INTEGER NOT NULL CHECK (position >= 0),
      reading TEXT NOT NULL,
      aspect TEXT NOT NULL CHECK (aspect IN ('value', 'change')),
      view TEXT NOT NULL CHECK (view IN ('down-the-line', 'face-on')),
      checkpoint TEXT NOT NULL,
      PRIMARY KEY (swing_id, position),
      UNIQUE (swing_id, reading, aspect, view, checkpoint)
    ) STRICT, WITHOUT ROWID;
  `,
};
