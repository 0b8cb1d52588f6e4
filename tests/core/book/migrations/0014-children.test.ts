import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { children } from '../../../../core/book/migrations/0014-children.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('nobody of a book of before is a child, no consent is confirmed, and what was in it is untouched', () => {
  const before = MIGRATIONS.filter(({ version }) => version < children.version);
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, before);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('a', 'l', 'Swing 1');
    INSERT INTO edit (lesson_id, swing_id, clip_id, undone, what) VALUES ('l', 'a', NULL, 0, 'not JSON');
    INSERT INTO bin_entry (id, kind, name, removed_at, rows) VALUES ('b', 'student', 'Mia', '', 'not JSON');
  `);
  const rows = (table: string) => database.prepare(`SELECT * FROM ${table}`).all() as Record<string, unknown>[];
  const tables = ['student', 'lesson', 'swing', 'edit', 'bin_entry'];
  const kept = tables.map((table) => rows(table));
  migrate(database, [...before, children]);
  expect(database.pragma('user_version', { simple: true })).toBe(children.version);
  const [students = [], lessons = [], ...others] = kept;
  expect(rows('student')).toEqual(students.map((row) => ({ ...row, child: 0 })));
  expect(rows('lesson')).toEqual(lessons.map((row) => ({ ...row, consent: 0 })));
  expect(tables.slice(2).map((table) => rows(table))).toEqual(others);
  for (const wrong of [
    'UPDATE student SET child = 2',
    "UPDATE lesson SET consent = 'yes'",
    'UPDATE lesson SET consent = NULL',
  ])
    expect(() => database.exec(wrong)).toThrow();
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
