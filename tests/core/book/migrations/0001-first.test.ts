import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { BOOK_APPLICATION_ID, migrate } from '../../../../core/book/migrate.ts';
import { first } from '../../../../core/book/migrations/0001-first.ts';

/** From nothing to the first book. The version before is an empty file, so the awkward rows are tried on the result. */
function firstBook(): Sqlite.Database {
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, [first]);
  return database;
}

const STUDENT = "INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'right')";
const LESSON = `INSERT INTO lesson (id, student_id, date, club, handedness, note)
  VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '')`;
const SWING = "INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1')";
const clip = (changes: Record<string, string> = {}): string => {
  const cells: Record<string, string> = {
    ...{ id: "'c'", swing_id: "'w'", view: "'face-on'", original_name: "'a.mp4'", sha256: `'${'a'.repeat(64)}'` },
    ...{ bytes: '1', stored: "'copied'", file: "'a.mp4'", modified_ms: '0.5', width: '1', height: '1' },
    ...{ timebase_num: '1', timebase_den: '1', rate_num: 'NULL', rate_den: 'NULL' },
    ...{ capture_num: 'NULL', capture_den: 'NULL', capture_confirmed: 'NULL', frame_count: '1' },
    ...changes,
  };
  return `INSERT INTO clip (${Object.keys(cells).join()}) VALUES (${Object.values(cells).join()})`;
};
const FRAME = "INSERT INTO marked_frame (clip_id, frame_index, pts) VALUES ('c', 0, -9007199254740991)";
const WHOLE = [STUDENT, LESSON, SWING, clip(), FRAME];

test('the first step makes a marked, empty book of version 1', () => {
  const database = firstBook();
  expect(database.pragma('user_version', { simple: true })).toBe(1);
  expect(database.pragma('application_id', { simple: true })).toBe(BOOK_APPLICATION_ID);
  for (const statement of WHOLE) database.exec(statement);
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});

test.each<[string, string]>([
  ['a lesson of nobody', LESSON.replace("'s'", "'nobody'")],
  ['a day that does not exist', LESSON.replace('2024-02-29', '2023-02-29').replace("'l'", "'m'")],
  ['an empty name', STUDENT.replace('Robin', '').replace("'s'", "'t'")],
  ['a third handedness', STUDENT.replace('right', 'both').replace("'s'", "'t'")],
  ['an id twice', STUDENT],
  ['a second clip of a view', clip({ id: "'d'" })],
  ['text for a number', clip({ id: "'d'", view: "'down-the-line'", width: "'wide'" })],
  ['half a rate', clip({ id: "'d'", view: "'down-the-line'", rate_num: '30' })],
  [
    'a capture rate that is neither claimed nor confirmed',
    clip({ id: "'d'", view: "'down-the-line'", capture_num: '1', capture_den: '1' }),
  ],
  ['a clip of no frames', clip({ id: "'d'", view: "'down-the-line'", frame_count: '0' })],
  ['a point on a frame that is not marked', "INSERT INTO placed_point VALUES ('c', 1, 'ball', 0.0, 0.0, 0)"],
  ['a point at no place (SQLite makes NULL of NaN)', "INSERT INTO placed_point VALUES ('c', 0, 'ball', NULL, 0.0, 0)"],
  ['a checkpoint of no length', "INSERT INTO checkpoint VALUES ('c', 'top', 0, 0, 0)"],
  ['two shapes at one place of the order', "INSERT INTO shape VALUES ('x', 'c', 0, 0, '{}'), ('y', 'c', 0, 0, '{}')"],
])('%s is refused by the tables themselves', (_, statement) => {
  const database = firstBook();
  for (const good of WHOLE) database.exec(good);
  expect(() => database.exec(statement)).toThrow(/constraint|cannot store/i);
});

test('removing a student leaves no row below', () => {
  const database = firstBook();
  for (const statement of WHOLE) database.exec(statement);
  database.exec("INSERT INTO placed_point VALUES ('c', 0, 'ball', 0.1, 0.0, 0)");
  database.exec("INSERT INTO shape VALUES ('x', 'c', 0, 0, '{}')");
  database.exec("INSERT INTO checkpoint VALUES ('c', 'top', 0, 0, 1)");
  database.exec("INSERT INTO clip_frames VALUES ('c', '{}', x'00')");
  database.exec("DELETE FROM student WHERE id = 's'");
  const tables = database.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
  expect(tables).toHaveLength(10);
  for (const table of tables)
    expect([
      table,
      database
        .prepare(`SELECT count(*) FROM ${String(table)}`)
        .pluck()
        .get(),
    ]).toEqual([table, 0]);
});
