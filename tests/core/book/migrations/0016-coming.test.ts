import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { coming } from '../../../../core/book/migrations/0016-coming.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('no clip of a book of before is coming, and only a part that is read from its whole can be', () => {
  const before = MIGRATIONS.filter(({ version }) => version < coming.version);
  const database = new Sqlite(':memory:');
  migrate(database, before);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO clip (id, swing_id, view, original_name, sha256, bytes, stored, file, modified_ms, width, height,
      timebase_num, timebase_den, frame_count, kept_first, kept_of)
      VALUES ('copied', 'w', 'face-on', '', '${'a'.repeat(64)}', 1, 'copied', 'a', -0.5, 1, 1, 1, 1, 1, 3, 9),
        ('linked', 'w', 'down-the-line', '', '${'b'.repeat(64)}', 1, 'linked', '/a', 0, 1, 1, 1, 1, 1, NULL, NULL);
  `);
  migrate(database, [...before, coming]);
  expect(database.pragma('user_version', { simple: true })).toBe(coming.version);
  expect(database.prepare('SELECT id, coming FROM clip').all()).toEqual([
    { id: 'copied', coming: 0 },
    { id: 'linked', coming: 0 },
  ]);
  for (const id of ['copied', 'linked'])
    expect(() => database.exec(`UPDATE clip SET coming = 1 WHERE id = '${id}'`)).toThrow();
  database.exec("UPDATE clip SET coming = 1, kept_first = 0, kept_of = 9 WHERE id = 'linked'");
  expect(() => database.exec("UPDATE clip SET coming = 2 WHERE id = 'linked'")).toThrow();
});
