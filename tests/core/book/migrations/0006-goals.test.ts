import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { ownGoals } from '../../../../core/book/migrations/0006-goals.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('a book of before has no goals of its own, and what was in it is untouched', () => {
  const before = MIGRATIONS.filter(({ version }) => version < ownGoals.version);
  const database = new Sqlite(':memory:');
  database.pragma('foreign_keys = ON');
  migrate(database, before);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO edit (lesson_id, swing_id, clip_id, undone, what) VALUES ('l', 'w', NULL, 0, 'no edit at all');
    INSERT INTO pinned_reading VALUES ('w', 0, 'no such reading', 'value', 'face-on', 'impact');
  `);
  const tables = ['student', 'lesson', 'swing', 'edit', 'pinned_reading'];
  const rows = () => tables.map((table) => database.prepare(`SELECT * FROM ${table}`).all());
  const kept = rows();
  migrate(database, [...before, ownGoals]);
  expect(database.pragma('user_version', { simple: true })).toBe(ownGoals.version);
  expect(rows()).toEqual(kept);
  expect(database.prepare('SELECT count(*) AS count FROM pattern').get()).toEqual({ count: 0 });
  database.exec("INSERT INTO pattern (aside, content) VALUES (1, 'old'), (1, 'older'), (0, 'in use')");
  for (const wrong of ["(0, 'second in use')", "(2, 'x')", '(1, NULL)', '(NULL, 1)'])
    expect(() => database.exec(`INSERT INTO pattern (aside, content) VALUES ${wrong}`)).toThrow();
  expect(database.pragma('integrity_check', { simple: true })).toBe('ok');
});
