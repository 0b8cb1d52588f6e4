import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { bin } from '../../../../core/book/migrations/0010-bin.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('a book of before gets an empty bin, and what was in it is untouched', () => {
  const before = MIGRATIONS.filter(({ version }) => version < bin.version);
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, before);
  database.exec("INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left')");
  const rows = () => database.prepare('SELECT * FROM student').all();
  const kept = rows();
  migrate(database, [...before, bin]);
  expect(database.pragma('user_version', { simple: true })).toBe(bin.version);
  expect(rows()).toEqual(kept);
  expect(database.prepare('SELECT count(*) FROM bin_entry').pluck().get()).toBe(0);
  const entry = (kind: string) =>
    `INSERT INTO bin_entry (id, kind, name, removed_at, rows) VALUES ('${kind}', '${kind}', '', '', '[]')`;
  expect(() => database.exec(entry('book'))).toThrow();
  database.exec(entry('clip'));
  expect(() => database.exec("INSERT INTO bin_file (entry_id, file) VALUES ('swing', 'a')")).toThrow();
  database.exec("INSERT INTO bin_file (entry_id, file) VALUES ('clip', 'a'); DELETE FROM bin_entry");
  expect(database.prepare('SELECT count(*) FROM bin_file').pluck().get()).toBe(0);
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
