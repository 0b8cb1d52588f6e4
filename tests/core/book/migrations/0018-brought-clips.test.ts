import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { migrate } from '../../../../core/book/migrate.ts';
import { broughtClips } from '../../../../core/book/migrations/0018-brought-clips.ts';
import { MIGRATIONS } from '../../../../core/book/migrations/all.ts';

test('no clip of a book of before is known to have come with a swing file; all else stays, bad rows too', () => {
  const before = MIGRATIONS.filter(({ version }) => version < broughtClips.version);
  const database = new Sqlite(':memory:');
  migrate(database, before);
  // A point of no body that lies nowhere, of a clip of no width.
  database.exec(`
    INSERT INTO student (id, first_name, last_name, handedness) VALUES ('s', 'Robin', '', 'left');
    INSERT INTO lesson (id, student_id, date, club, handedness, note) VALUES ('l', 's', '2024-02-29', 'Driver', 'right', '');
    INSERT INTO swing (id, lesson_id, label) VALUES ('w', 'l', 'Swing 1');
    INSERT INTO clip (id, swing_id, view, original_name, sha256, bytes, stored, file, modified_ms, width, height,
      timebase_num, timebase_den, frame_count)
      VALUES ('c', 'w', 'face-on', '', '${'a'.repeat(64)}', 1, 'linked', '/a', -0.5, 1, 1, 1, 1, 1);
    INSERT INTO marked_frame (clip_id, frame_index, pts) VALUES ('c', 7, -9);
    INSERT INTO placed_point VALUES ('c', 7, 'wing', 9e999, 0.0, 0, NULL, '{"x":1}');
  `);
  migrate(database, [...before, broughtClips]);
  expect(database.pragma('user_version', { simple: true })).toBe(broughtClips.version);
  expect(database.prepare('SELECT id, file, modified_ms, brought FROM clip').all()).toEqual([
    { id: 'c', file: '/a', modified_ms: -0.5, brought: null },
  ]);
  expect(database.prepare('SELECT body_point, proposed FROM placed_point').all()).toEqual([
    { body_point: 'wing', proposed: '{"x":1}' },
  ]);
});
