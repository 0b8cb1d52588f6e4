import Sqlite from 'better-sqlite3';

/** The version of SQLite that books are kept with, as SQLite itself names it. Throws when its binary does not load. */
export function readSqliteVersion(): string {
  const nativeBinding = process.env['BAYBOOK_SQLITE_BINDING'];
  const sqlite = new Sqlite(':memory:', nativeBinding === undefined ? {} : { nativeBinding });
  try {
    return String(sqlite.prepare('select sqlite_version()').pluck().get());
  } finally {
    sqlite.close();
  }
}
