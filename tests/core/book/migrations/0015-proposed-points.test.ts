import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { proposedPoints } from '../../../../core/book/migrations/0015-proposed-points.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('every point of a book of before was placed by a hand', () => {
  const before = MIGRATIONS.filter(({ version }) => version < proposedPoints.version);
  const database = new Sqlite(':memory:');
  migrate(database, before);
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO clip (id, swing_id, view, original_name, sha256, bytes, stored, file, modified_ms, width, height,
      timebase_num, timebase_den, frame_count)
      VALUES ('c', 'w', 'face-on', '', '${'a'.repeat(64)}', 1, 'linked', '/a', -0.5, 1, 1, 1, 1, 1);
    INSERT INTO marked_frame (clip_id, frame_index, pts) VALUES ('c', 7, -9);
    INSERT INTO placed_point VALUES ('c', 7, 'ball', 0.1, 0.0, 1);
  `);
  migrate(database, [...before, proposedPoints]);
  expect(database.pragma('user_version', { simple: true })).toBe(proposedPoints.version);
  expect(database.prepare('SELECT * FROM placed_point').all()).toMatchObject([
    { body_point: 'ball', x: 0.1, y: 0, hidden: 1, guess: null },
  ]);
  database.exec('UPDATE placed_point SET guess = 4.5');
  for (const wrong of ['0', '-1', "'wide'"])
    expect(() => database.exec(`UPDATE placed_point SET guess = ${wrong}`)).toThrow();
});
