import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { traces } from '../../../../core/book/migrations/0009-traces.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('a book of before is looked after once, and what was in it is untouched', () => {
  const before = MIGRATIONS.filter(({ version }) => version < traces.version);
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, before);
  database.exec("INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left')");
  const rows = () => database.prepare('SELECT * FROM student').all();
  const kept = rows();
  migrate(database, [...before, traces]);
  expect(database.pragma('user_version', { simple: true })).toBe(traces.version);
  expect(rows()).toEqual(kept);
  expect(database.prepare('SELECT place FROM trace ORDER BY place').pluck().all()).toEqual(['book', 'program']);
  for (const wrong of ["('elsewhere')", "('book')", '(NULL)'])
    expect(() => database.exec(`INSERT INTO trace (place) VALUES ${wrong}`)).toThrow();
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
