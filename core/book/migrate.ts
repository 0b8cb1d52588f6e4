import type Sqlite from 'better-sqlite3';

/** "BBk1" in ASCII: marks a SQLite file as a Baybook book (PRAGMA application_id). */
export const BOOK_APPLICATION_ID = 0x42426b31;

/** One step of the book's tables, from `version` - 1 to `version`. */
export interface Migration {
  readonly version: number;
  readonly sql: string;
}

/** The version of the newest step; a book above it was written by a newer Baybook. */
export const newestVersion = (migrations: readonly Migration[]): number => migrations.at(-1)?.version ?? 0;

/**
 * Takes a book forward to the newest version, each step in a transaction of its own together with its number: after a
 * kill the book stands at a whole version. Never goes back. Foreign keys must hold after each step.
 *
 * @throws Error when the list has a gap, or a step leaves a row that refers to nothing; that step is undone.
 */
export function migrate(database: Sqlite.Database, migrations: readonly Migration[]): void {
  migrations.forEach((migration, place) => {
    if (migration.version !== place + 1)
      throw new Error(
        `migrations must be numbered without a gap: ${String(migration.version)} at ${String(place + 1)}`,
      );
  });
  const current = Number(database.pragma('user_version', { simple: true }));
  for (const { version, sql } of migrations.slice(current)) {
    database
      .transaction(() => {
        database.exec(sql);
        const broken: unknown = database.pragma('foreign_key_check');
        if (!Array.isArray(broken) || broken.length > 0)
          throw new Error(`migration ${String(version)} left a row that refers to nothing`);
        database.pragma(`application_id = ${String(BOOK_APPLICATION_ID)}`);
        database.pragma(`user_version = ${String(version)}`);
      })
      .immediate();
  }
}
