import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { proposedPlaces } from '../../../../core/book/migrations/0017-proposed-places.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('no point of a book of before tells where it had been proposed, and nothing was begun anew', () => {
  const before = MIGRATIONS.filter(({ version }) => version < proposedPlaces.version);
  const database = new Sqlite(':memory:');
  migrate(database, before);
  // A point of no body, and one that lies nowhere: what a damaged book may hold goes through as it is.
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO clip (id, swing_id, view, original_name, sha256, bytes, stored, file, modified_ms, width, height,
      timebase_num, timebase_den, frame_count)
      VALUES ('c', 'w', 'face-on', '', '${'a'.repeat(64)}', 1, 'linked', '/a', -0.5, 1, 1, 1, 1, 1);
    INSERT INTO marked_frame (clip_id, frame_index, pts) VALUES ('c', 7, -9);
    INSERT INTO placed_point VALUES ('c', 7, 'ball', 0.1, 0.0, 1, 4.5), ('c', 7, 'wing', 9e999, 0.0, 0, NULL);
  `);
  migrate(database, [...before, proposedPlaces]);
  expect(database.pragma('user_version', { simple: true })).toBe(proposedPlaces.version);
  expect(database.prepare('SELECT body_point, guess, proposed FROM placed_point').all()).toEqual([
    { body_point: 'ball', guess: 4.5, proposed: null },
    { body_point: 'wing', guess: null, proposed: null },
  ]);
  expect(database.prepare('SELECT * FROM learning').all()).toEqual([]);
  database.exec(`UPDATE placed_point SET proposed = '{"x":1}'`);
  expect(() => database.exec("UPDATE placed_point SET proposed = '{'")).toThrow();
  database.exec("INSERT INTO learning VALUES (1, '2026-11-30T00:00:00.000Z')");
  expect(() => database.exec("INSERT INTO learning VALUES (2, '2026-11-30T00:00:00.000Z')")).toThrow();
});
