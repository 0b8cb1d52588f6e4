import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { first } from '../../../../core/book/migrations/0001-first.ts';
import { keptSpan } from '../../../../core/book/migrations/0002-kept-span.ts';

/** A book of version 1 with a marked clip whose name, rate and size are as odd as they may be. */
function oldBook(): Sqlite.Database {
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, [first]);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO clip (id, swing_id, view, original_name, sha256, bytes, stored, file, modified_ms, width, height,
      timebase_num, timebase_den, frame_count)
      VALUES ('c', 'w', 'face-on', '', '${'a'.repeat(64)}', 1, 'linked', '/a', -0.5, 1, 1, 1, 1, 1);
    INSERT INTO marked_frame (clip_id, frame_index, pts) VALUES ('c', 7, -9);
  `);
  return database;
}

test('clips of the book before are whole ones, and keep all that was marked', () => {
  const database = oldBook();
  migrate(database, [first, keptSpan]);
  expect(database.pragma('user_version', { simple: true })).toBe(2);
  expect(database.prepare('SELECT id, kept_first, kept_of, frame_count FROM clip').all()).toEqual([
    { id: 'c', kept_first: null, kept_of: null, frame_count: 1 },
  ]);
  expect(database.prepare('SELECT frame_index FROM marked_frame').pluck().all()).toEqual([7]);
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});

test.each([
  ['0, kept_of = 1', true],
  ['99, kept_of = 100', true],
  ['NULL, kept_of = NULL', true],
  ['-1, kept_of = 5', false],
  ['5, kept_of = 5', false],
  ['5, kept_of = NULL', false],
  ['NULL, kept_of = 5', false],
  ["'first', kept_of = 5", false],
])('a clip of one frame that begins at frame %s: %s', (cells, taken) => {
  const database = oldBook();
  migrate(database, [first, keptSpan]);
  const change = () => database.exec(`UPDATE clip SET kept_first = ${cells} WHERE id = 'c'`);
  const kept = () =>
    database.prepare("SELECT kept_first || ', kept_of = ' || kept_of FROM clip WHERE id = 'c'").pluck();
  if (taken) change();
  else expect(change).toThrow(/constraint|cannot store/i);
  expect(kept().get()).toBe(taken && !cells.startsWith('NULL') ? cells : null);
});
