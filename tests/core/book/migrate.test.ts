import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../core/book/migrate.ts';
import type { Migration } from '../../../core/book/migrate.ts';
import { MIGRATIONS } from '../../../core/book/migrations/all.ts';

const one: Migration = { version: 1, sql: 'CREATE TABLE a (x INTEGER PRIMARY KEY) STRICT; INSERT INTO a VALUES (7);' };
const two: Migration = {
  version: 2,
  sql: 'CREATE TABLE b (x INTEGER REFERENCES a (x)) STRICT; INSERT INTO b VALUES (7);',
};
const state = (database: Sqlite.Database) => ({
  version: database.pragma('user_version', { simple: true }),
  tables: database.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name").pluck().all(),
});

test('each step is taken once, in order, whether one at a time or all at once', () => {
  const gradual = new Sqlite(':memory:');
  migrate(gradual, [one]);
  expect(state(gradual)).toEqual({ version: 1, tables: ['a'] });
  migrate(gradual, [one, two]);
  migrate(gradual, [one, two]);
  const atOnce = new Sqlite(':memory:');
  migrate(atOnce, [one, two]);
  expect(state(gradual)).toEqual({ version: 2, tables: ['a', 'b'] });
  expect(state(atOnce)).toEqual(state(gradual));
});

test.each<[string, Migration]>([
  ['fails half-way', { version: 2, sql: 'CREATE TABLE b (x) ; INSERT INTO nowhere VALUES (1);' }],
  ['leaves a row that refers to nothing', { ...two, sql: two.sql.replace('VALUES (7)', 'VALUES (8)') }],
])('a step that %s is undone whole, and the book stays at the version before', (_, broken) => {
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = OFF');
  migrate(database, [one]);
  expect(() => {
    migrate(database, [one, broken]);
  }).toThrow();
  expect(state(database)).toEqual({ version: 1, tables: ['a'] });
});

test('a list with a gap or out of order is refused before anything happens', () => {
  const database = new Sqlite(':memory:');
  for (const list of [[two], [two, one], [one, { ...two, version: 3 }], [one, one]])
    expect(() => {
      migrate(database, list);
    }).toThrow(/without a gap/);
  expect(state(database)).toEqual({ version: 0, tables: [] });
});

test('every step is a file of its own with its number, stands in the list, and has a test of its own', () => {
  const folder = join(import.meta.dirname, '../../../core/book/migrations');
  const files = readdirSync(folder).filter((name) => name !== 'all.ts');
  const list = readFileSync(join(folder, 'all.ts'), 'utf8');
  expect(files.map((name) => Number(name.slice(0, 4)))).toEqual(MIGRATIONS.map(({ version }) => version));
  for (const file of files) {
    expect(file).toMatch(/^\d{4}-[a-z-]+\.ts$/);
    expect(list).toContain(`./${file}`);
    const itsTest = join(import.meta.dirname, 'migrations', file.replace(/\.ts$/, '.test.ts'));
    expect([file, existsSync(itsTest)]).toEqual([file, true]);
    expect(readFileSync(itsTest, 'utf8')).toContain(`migrations/${file}`);
  }
});
