import type { Migration } from '../migrate.ts';

/**
 * Repeat checks with every placing of every round, from which their numbers are worked out each time. `clip_id` refers to
 * no row: a check outlives its clips, so it holds all that is needed of them, and no name of anybody. `checkpoints` and
 * `shapes` are JSON (head boxes, plumbs and known lengths as in core/model/mark.ts).
 */
export const repeatChecks: Migration = {
  version: 5,
  sql: `
    CREATE TABLE repeat_check (
      id TEXT PRIMARY KEY,
      -- An instant of UTC, ISO 8601 with milliseconds.
      at TEXT NOT NULL
    ) STRICT;

    CREATE TABLE repeat_frame (
      check_id TEXT NOT NULL REFERENCES repeat_check (id) ON DELETE CASCADE,
      position INTEGER NOT NULL CHECK (position >= 0),
      clip_id TEXT NOT NULL,
      view TEXT NOT NULL CHECK (view IN ('down-the-line', 'face-on')),
      handedness TEXT NOT NULL CHECK (handedness IN ('right', 'left')),
      frame_index INTEGER NOT NULL CHECK (frame_index >= 0),
      pts INTEGER NOT NULL,
      width INTEGER NOT NULL CHECK (width > 0),
      height INTEGER NOT NULL CHECK (height > 0),
      checkpoints TEXT NOT NULL,
      shapes TEXT NOT NULL,
      PRIMARY KEY (check_id, position),
      UNIQUE (check_id, clip_id, frame_index)
    ) STRICT, WITHOUT ROWID;

    CREATE TABLE repeat_placing (
      check_id TEXT NOT NULL,
      position INTEGER NOT NULL,
      body_point TEXT NOT NULL,
      -- 0 is the place that was marked before the check.
      round INTEGER NOT NULL CHECK (round >= 0),
      x REAL NOT NULL,
      y REAL NOT NULL,
      PRIMARY KEY (check_id, position, body_point, round),
      FOREIGN KEY (check_id, position) REFERENCES repeat_frame (check_id, position) ON DELETE CASCADE
    ) STRICT, WITHOUT ROWID;
  `,
};
