import type { Migration } from '../migrate.ts';

/**
 * The first book. Every table is STRICT: a column holds its declared type or the row is refused.
 *
 * `number` keeps the order in which rows were added; ids are UUIDs that other rows and the window use. REAL columns are
 * 8-byte floats, so a coordinate comes back exactly as it went in. Rates and time bases are pairs of whole numbers.
 * `clip_frames.frames` is described in frame-table-bytes.ts. `unwanted_media` lists files of the media folder that may
 * be deleted once no clip uses them; it is written together with the removal, so that a kill in between forgets nothing.
 */
export const first: Migration = {
  version: 1,
  sql: `
    CREATE TABLE student (
      number INTEGER PRIMARY KEY,
      id TEXT NOT NULL UNIQUE,
      first_name TEXT NOT NULL CHECK (length(first_name) BETWEEN 1 AND 80),
      last_name TEXT NOT NULL CHECK (length(last_name) <= 80),
      handedness TEXT NOT NULL CHECK (handedness IN ('right', 'left'))
    ) STRICT;

    CREATE TABLE lesson (
      number INTEGER PRIMARY KEY,
      id TEXT NOT NULL UNIQUE,
      student_id TEXT NOT NULL REFERENCES student (id) ON DELETE CASCADE,
      date TEXT NOT NULL CHECK (date IS date(date)),
      club TEXT NOT NULL CHECK (length(club) BETWEEN 1 AND 80),
      handedness TEXT NOT NULL CHECK (handedness IN ('right', 'left')),
      note TEXT NOT NULL
    ) STRICT;
    CREATE INDEX lesson_by_student ON lesson (student_id, date);

    CREATE TABLE swing (
      number INTEGER PRIMARY KEY,
      id TEXT NOT NULL UNIQUE,
      lesson_id TEXT NOT NULL REFERENCES lesson (id) ON DELETE CASCADE,
      label TEXT NOT NULL CHECK (length(label) BETWEEN 1 AND 80)
    ) STRICT;
    CREATE INDEX swing_by_lesson ON swing (lesson_id);

    CREATE TABLE clip (
      number INTEGER PRIMARY KEY,
      id TEXT NOT NULL UNIQUE,
      swing_id TEXT NOT NULL REFERENCES swing (id) ON DELETE CASCADE,
      view TEXT NOT NULL CHECK (view IN ('down-the-line', 'face-on')),
      original_name TEXT NOT NULL,
      sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
      bytes INTEGER NOT NULL CHECK (bytes > 0),
      stored TEXT NOT NULL CHECK (stored IN ('copied', 'linked')),
      -- copied: a name within the media folder; linked: an absolute path.
      file TEXT NOT NULL CHECK (file <> ''),
      modified_ms REAL NOT NULL,
      width INTEGER NOT NULL CHECK (width > 0),
      height INTEGER NOT NULL CHECK (height > 0),
      timebase_num INTEGER NOT NULL CHECK (timebase_num > 0),
      timebase_den INTEGER NOT NULL CHECK (timebase_den > 0),
      rate_num INTEGER CHECK (rate_num > 0),
      rate_den INTEGER CHECK (rate_den > 0),
      capture_num INTEGER CHECK (capture_num > 0),
      capture_den INTEGER CHECK (capture_den > 0),
      capture_confirmed INTEGER CHECK (capture_confirmed IN (0, 1)),
      frame_count INTEGER NOT NULL CHECK (frame_count > 0),
      UNIQUE (swing_id, view),
      CHECK ((rate_num IS NULL) = (rate_den IS NULL)),
      CHECK ((capture_num IS NULL) = (capture_den IS NULL) AND (capture_num IS NULL) = (capture_confirmed IS NULL))
    ) STRICT;
    CREATE INDEX clip_by_file ON clip (file);

    -- What was read from the file at import and is never read again: frame 17 of a mark stays frame 17.
    CREATE TABLE clip_frames (
      clip_id TEXT NOT NULL PRIMARY KEY REFERENCES clip (id) ON DELETE CASCADE,
      facts TEXT NOT NULL,
      frames BLOB NOT NULL
    ) STRICT;

    CREATE TABLE checkpoint (
      clip_id TEXT NOT NULL REFERENCES clip (id) ON DELETE CASCADE,
      checkpoint TEXT NOT NULL,
      frame_index INTEGER NOT NULL CHECK (frame_index >= 0),
      pts INTEGER NOT NULL,
      ticks INTEGER NOT NULL CHECK (ticks > 0),
      PRIMARY KEY (clip_id, checkpoint)
    ) STRICT, WITHOUT ROWID;

    CREATE TABLE marked_frame (
      clip_id TEXT NOT NULL REFERENCES clip (id) ON DELETE CASCADE,
      frame_index INTEGER NOT NULL CHECK (frame_index >= 0),
      pts INTEGER NOT NULL,
      PRIMARY KEY (clip_id, frame_index)
    ) STRICT, WITHOUT ROWID;

    CREATE TABLE placed_point (
      clip_id TEXT NOT NULL,
      frame_index INTEGER NOT NULL,
      body_point TEXT NOT NULL,
      x REAL NOT NULL,
      y REAL NOT NULL,
      hidden INTEGER NOT NULL CHECK (hidden IN (0, 1)),
      PRIMARY KEY (clip_id, frame_index, body_point),
      FOREIGN KEY (clip_id, frame_index) REFERENCES marked_frame (clip_id, frame_index) ON DELETE CASCADE
    ) STRICT, WITHOUT ROWID;

    CREATE TABLE shape (
      id TEXT NOT NULL PRIMARY KEY,
      clip_id TEXT NOT NULL,
      frame_index INTEGER NOT NULL,
      -- Order in which shapes are painted, from 0.
      position INTEGER NOT NULL CHECK (position >= 0),
      -- The shape as JSON, numbers in the shortest form that reads back to the same 8-byte float.
      geometry TEXT NOT NULL,
      UNIQUE (clip_id, frame_index, position),
      FOREIGN KEY (clip_id, frame_index) REFERENCES marked_frame (clip_id, frame_index) ON DELETE CASCADE
    ) STRICT, WITHOUT ROWID;

    CREATE TABLE unwanted_media (file TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
  `,
};
