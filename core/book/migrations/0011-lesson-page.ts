import type { Migration } from '../migrate.ts';

/**
 * What a lesson sends in words (core/model/lesson-page.ts), as JSON, at most one a lesson; and what the coach uses in every
 * lesson: drills and letter. `swing_id` is the swing that the page was last changed from. With this version edits may also be
 * of a page, which programs up to version 10 cannot read.
 */
export const lessonPages: Migration = {
  version: 11,
  sql: `
    CREATE TABLE lesson_page (
      lesson_id TEXT NOT NULL PRIMARY KEY REFERENCES lesson (id) ON DELETE CASCADE,
      swing_id TEXT REFERENCES swing (id) ON DELETE SET NULL,
      content TEXT NOT NULL
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX lesson_page_by_swing ON lesson_page (swing_id);

    CREATE TABLE coach_library (
      number INTEGER PRIMARY KEY CHECK (number = 1),
      content TEXT NOT NULL
    ) STRICT;
  `,
};
