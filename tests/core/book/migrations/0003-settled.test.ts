import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { first } from '../../../../core/book/migrations/0001-first.ts';
import { keptSpan } from '../../../../core/book/migrations/0002-kept-span.ts';
import { settledTable } from '../../../../core/book/migrations/0003-settled.ts';

test('clips of the book before were decoded before they came in: they are settled, and their table is untouched', () => {
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, [first, keptSpan]);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO clip (id, swing_id, view, original_name, sha256, bytes, stored, file, modified_ms, width, height,
      timebase_num, timebase_den, frame_count)
      VALUES ('c', 'w', 'face-on', 'x', '${'a'.repeat(64)}', 1, 'linked', '/a', -0.5, 1, 1, 1, 1, 1);
    INSERT INTO clip_frames (clip_id, facts, frames) VALUES ('c', '{"odd":true}', x'00ff');
  `);
  migrate(database, [first, keptSpan, settledTable]);
  expect(database.pragma('user_version', { simple: true })).toBe(3);
  expect(database.prepare('SELECT facts, hex(frames) AS frames, settled FROM clip_frames').all()).toEqual([
    { facts: '{"odd":true}', frames: '00FF', settled: 1 },
  ]);
  expect(() => database.exec('UPDATE clip_frames SET settled = 2')).toThrow(/CHECK/);
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
