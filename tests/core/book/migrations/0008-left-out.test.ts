import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { leftOutPictures } from '../../../../core/book/migrations/0008-left-out.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('of the clips of a book of before nobody counted what is left out; the rest of their index is untouched', () => {
  const before = MIGRATIONS.filter(({ version }) => version < leftOutPictures.version);
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, before);
  const facts = { width: 4, height: 2, pixelAspect: { num: 1, den: 1 }, nominalRate: null, sound: true, damage: [] };
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO clip (id, swing_id, view, original_name, sha256, bytes, stored, file, modified_ms, width, height,
      timebase_num, timebase_den, frame_count)
      VALUES ('c', 'w', 'face-on', 'a.mp4', '${'0'.repeat(64)}', 1, 'copied', 'a', 0, 4, 2, 1, 30, 1);
    INSERT INTO clip_frames (clip_id, facts, frames, settled) VALUES ('c', '${JSON.stringify(facts)}', x'00', 1);
  `);
  migrate(database, [...before, leftOutPictures]);
  expect(database.pragma('user_version', { simple: true })).toBe(leftOutPictures.version);
  const row = database
    .prepare<[], { facts: string; frames: Buffer; settled: number }>('SELECT * FROM clip_frames')
    .get();
  expect(JSON.parse(row?.facts ?? '')).toEqual({ ...facts, leftOut: null });
  expect([row?.frames.toString('hex'), row?.settled]).toEqual(['00', 1]);
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
