import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { namings } from '../../../../core/book/migrations/0012-namings.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('a repeat check of before has no namings, and is as it was', () => {
  const before = MIGRATIONS.filter(({ version }) => version < namings.version);
  const database = new Sqlite(':memory:');
  migrate(database, before);
  database.exec("INSERT INTO repeat_check VALUES ('c', '2026-05-12T09:30:00.000Z')");
  migrate(database, [...before, namings]);
  expect(database.pragma('user_version', { simple: true })).toBe(namings.version);
  expect(database.prepare('SELECT * FROM repeat_check').all()).toEqual([
    { id: 'c', at: '2026-05-12T09:30:00.000Z', namings: '[]' },
  ]);
});
