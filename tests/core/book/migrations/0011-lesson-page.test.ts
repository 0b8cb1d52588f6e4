import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { lessonPages } from '../../../../core/book/migrations/0011-lesson-page.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('a book of before has no pages, what was in it is untouched, and a page goes with its lesson alone', () => {
  const before = MIGRATIONS.filter(({ version }) => version < lessonPages.version);
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
  migrate(database, [...before, lessonPages]);
  expect(database.pragma('user_version', { simple: true })).toBe(lessonPages.version);
  expect(rows()).toEqual(kept);
  const pages = () => database.prepare('SELECT lesson_id, swing_id FROM lesson_page').raw().all();
  expect(pages()).toEqual([]);
  database.exec("INSERT INTO lesson_page VALUES ('l', 'a', '{}')");
  for (const wrong of ["('l', 'a', '')", "('x', 'a', '')", "('l', 'x', '')"])
    expect(() => database.exec(`INSERT INTO lesson_page VALUES ${wrong}`)).toThrow();
  database.exec("DELETE FROM swing WHERE id = 'a'");
  expect(pages()).toEqual([['l', null]]);
  database.exec("DELETE FROM student WHERE id = 's'");
  expect(pages()).toEqual([]);
  database.exec("INSERT INTO coach_library VALUES (1, '{}')");
  expect(() => database.exec("INSERT INTO coach_library VALUES (2, '{}')")).toThrow();
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
