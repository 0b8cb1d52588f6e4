import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { first } from '../../../../core/book/migrations/0001-first.ts';
import { keptSpan } from '../../../../core/book/migrations/0002-kept-span.ts';
import { settledTable } from '../../../../core/book/migrations/0003-settled.ts';
import { editsAndPins } from '../../../../core/book/migrations/0004-edits-and-pins.ts';

test('a book of before has no kept edits and no pins, and what was in it is untouched', () => {
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, [first, keptSpan, settledTable]);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
  `);
  const before = database.prepare('SELECT * FROM swing').all();
  migrate(database, [first, keptSpan, settledTable, editsAndPins]);
  expect(database.pragma('user_version', { simple: true })).toBe(4);
  expect(database.prepare('SELECT * FROM swing').all()).toEqual(before);
  for (const table of ['edit', 'pinned_reading'])
    expect(database.prepare(`SELECT count(*) AS count FROM ${table}`).get()).toEqual({ count: 0 });
  database.exec(`
    INSERT INTO edit (lesson_id, swing_id, clip_id, undone, what) VALUES ('l', 'w', NULL, 0, '{}');
    INSERT INTO pinned_reading VALUES ('w', 0, 'tempo', 'value', 'face-on', 'impact');
  `);
  expect(() =>
    database.exec("INSERT INTO pinned_reading VALUES ('w', 1, 'tempo', 'value', 'face-on', 'impact')"),
  ).toThrow(/UNIQUE/);
  database.exec("DELETE FROM lesson WHERE id = 'l'");
  for (const table of ['edit', 'pinned_reading'])
    expect(database.prepare(`SELECT count(*) AS count FROM ${table}`).get()).toEqual({ count: 0 });
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
