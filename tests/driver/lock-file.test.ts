import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '..', '..');

/**
 * better-sqlite3 brings its binaries along and says `gypfile: false`, but npm forgets that when it writes the lock file
 * and then builds the package at `npm ci`, which fails on a machine without Python. npm 11 is kept from it by
 * `allowScripts` in package.json; npm 10, which comes with Node 20, by the line that this test asks for.
 */
test('npm ci compiles nothing', () => {
  const lock = readFileSync(join(root, 'package-lock.json'), 'utf8');
  const entry = /"node_modules\/better-sqlite3": \{[^}]*\}/.exec(lock)?.[0] ?? '';
  expect(entry, 'add the line "gypfile": false, to better-sqlite3 in package-lock.json').toContain('"gypfile": false');
  const program = readFileSync(join(root, 'package.json'), 'utf8');
  expect(program).toMatch(/"better-sqlite3": false/);
});
