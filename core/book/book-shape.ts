import Sqlite from 'better-sqlite3';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import { migrate } from './migrate.ts';
import type { Migration } from './migrate.ts';

const columns = v.array(v.strictObject({ part: v.string(), name: v.string() }));

/** Each table of a book with its columns, and each index and trigger, by name. */
const PARTS = `
  SELECT 'table “' || t.name || '”' AS part, c.name AS name
    FROM sqlite_schema AS t JOIN pragma_table_info(t.name) AS c WHERE t.type = 'table'
  UNION ALL SELECT type || ' “' || name || '”', '' FROM sqlite_schema WHERE type IN ('index', 'trigger') AND sql IS NOT NULL`;

/**
 * The first part that a book of `version` must have and that this one lacks, in words; null when nothing is missing. What a
 * version has is what its own steps make, in a book that is only in memory.
 */
export function missingPart(
  book: Sqlite.Database,
  version: number,
  migrations: readonly Migration[],
  options: Sqlite.Options,
): string | null {
  const whole = new Sqlite(':memory:', options);
  try {
    migrate(whole, migrations.slice(0, version));
    const list = (database: Sqlite.Database) => v.parse(columns, database.prepare(PARTS).all());
    const found = list(book);
    const missing = list(whole).find((part) => !found.some((has) => has.part === part.part && has.name === part.name));
    if (missing === undefined) return null;
    const isGone = missing.name === '' || !found.some(({ part }) => part === missing.part);
    return isGone ? say`the ${missing.part}` : say`the column “${missing.name}” of the ${missing.part}`;
  } finally {
    whole.close();
  }
}
