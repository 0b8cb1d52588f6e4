import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { comparison } from '../../../../core/book/migrations/0007-comparison.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('a book of before compares nothing, what was in it is untouched, and a comparison goes with either swing', () => {
  const before = MIGRATIONS.filter(({ version }) => version < comparison.version);
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, before);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('a', 'l', 'Swing 1'), ('b', 'l', 'Swing 2'), ('c', 'l', 'Swing 3');
  `);
  const rows = () => ['student', 'lesson', 'swing'].map((table) => database.prepare(`SELECT * FROM ${table}`).all());
  const kept = rows();
  migrate(database, [...before, comparison]);
  expect(database.pragma('user_version', { simple: true })).toBe(comparison.version);
  expect(rows()).toEqual(kept);
  const pairs = () => database.prepare('SELECT swing_id || then_id FROM comparison ORDER BY 1').pluck().all();
  expect(pairs()).toEqual([]);
  database.exec("INSERT INTO comparison VALUES ('b', 'a'), ('c', 'b'), ('a', 'c')");
  for (const wrong of ["('b', 'c')", "('x', 'a')", "('c', 'x')"])
    expect(() => database.exec(`INSERT INTO comparison VALUES ${wrong}`)).toThrow();
  expect(() => database.exec("UPDATE comparison SET then_id = 'a' WHERE swing_id = 'a'")).toThrow();
  database.exec("DELETE FROM swing WHERE id = 'a'");
  expect(pairs()).toEqual(['cb']);
  database.exec("DELETE FROM student WHERE id = 's'");
  expect(pairs()).toEqual([]);
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
