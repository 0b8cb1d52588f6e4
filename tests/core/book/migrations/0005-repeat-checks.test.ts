import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { first } from '../../../../core/book/migrations/0001-first.ts';
import { keptSpan } from '../../../../core/book/migrations/0002-kept-span.ts';
import { settledTable } from '../../../../core/book/migrations/0003-settled.ts';
import { editsAndPins } from '../../../../core/book/migrations/0004-edits-and-pins.ts';
import { repeatChecks } from '../../../../core/book/migrations/0005-repeat-checks.ts';

test('a book of before has no repeat check, and what was in it is untouched; a check needs no clip', () => {
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  const before = [first, keptSpan, settledTable, editsAndPins];
  migrate(database, before);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO edit (lesson_id, swing_id, clip_id, undone, what) VALUES ('l', 'w', NULL, 0, 'not even JSON');
    INSERT INTO pinned_reading VALUES ('w', 0, 'no such reading', 'value', 'face-on', 'impact');
  `);
  const tables = ['student', 'lesson', 'swing', 'edit', 'pinned_reading'];
  const rows = () => tables.map((table) => database.prepare(`SELECT * FROM ${table}`).all());
  const kept = rows();
  migrate(database, [...before, repeatChecks]);
  expect(database.pragma('user_version', { simple: true })).toBe(5);
  expect(rows()).toEqual(kept);

  const count = (table: string) => database.prepare(`SELECT count(*) AS count FROM ${table}`).get();
  const added = ['repeat_check', 'repeat_frame', 'repeat_placing'];
  for (const table of added) expect(count(table)).toEqual({ count: 0 });
  const frame = (position: number, view: string, index: number) =>
    `INSERT INTO repeat_frame VALUES ('c', ${String(position)}, 'gone', '${view}', 'left', ${String(index)}, 7, 640, 480, '[]', '[]')`;
  database.exec(`
    INSERT INTO repeat_check VALUES ('c', '2026-05-12T09:30:00.000Z');
    ${frame(0, 'face-on', 3)};
    INSERT INTO repeat_placing VALUES ('c', 0, 'ball', 0, 1.5, 2), ('c', 0, 'ball', 1, 1, 2);
  `);
  expect(() => database.exec(frame(1, 'face-on', 3))).toThrow(/UNIQUE/);
  expect(() => database.exec(frame(1, 'from above', 4))).toThrow(/CHECK/);
  expect(() => database.exec("INSERT INTO repeat_placing VALUES ('c', 9, 'ball', 0, 1, 2)")).toThrow(/FOREIGN KEY/);
  expect(() => database.exec("INSERT INTO repeat_placing VALUES ('c', 0, 'ball', 2, NULL, 2)")).toThrow(/NOT NULL/);
  database.exec("DELETE FROM repeat_check WHERE id = 'c'");
  for (const table of added) expect(count(table)).toEqual({ count: 0 });
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
