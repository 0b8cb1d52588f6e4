import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { talkEdits } from '../../../../core/book/migrations/0013-talk-edits.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('a book of before has no talk-through, what was in it is untouched, and edits of one go with their swing', () => {
  const before = MIGRATIONS.filter(({ version }) => version < talkEdits.version);
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, before);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('a', 'l', 'Swing 1');
    INSERT INTO edit (lesson_id, swing_id, clip_id, undone, what) VALUES ('l', 'a', NULL, 0, 'not JSON');
  `);
  const rows = () =>
    ['student', 'lesson', 'swing', 'edit'].map((table) => database.prepare(`SELECT * FROM ${table}`).all());
  const kept = rows();
  migrate(database, [...before, talkEdits]);
  expect(database.pragma('user_version', { simple: true })).toBe(talkEdits.version);
  expect(rows()).toEqual(kept);
  const talks = () => database.prepare('SELECT swing_id FROM talk_edits').raw().all();
  expect(talks()).toEqual([]);
  database.exec("INSERT INTO talk_edits VALUES ('a', '[]')");
  for (const wrong of ["('a', '[]')", "('x', '[]')"])
    expect(() => database.exec(`INSERT INTO talk_edits VALUES ${wrong}`)).toThrow();
  database.exec("DELETE FROM swing WHERE id = 'a'");
  expect(talks()).toEqual([]);
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
