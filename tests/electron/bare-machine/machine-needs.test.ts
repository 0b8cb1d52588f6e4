import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readDefines } from '../../../electron/bare-machine/build-sqlite-binding.ts';
import { describeMissing, findMissing } from '../../../electron/bare-machine/debian-packages.ts';

test('what is missing is told in one sentence, each package once', () => {
  expect(
    describeMissing([
      { kind: 'command', name: 'gcc', debianPackage: 'build-essential' },
      { kind: 'command', name: 'g++', debianPackage: 'build-essential' },
      { kind: 'library', name: 'libnss3.so', debianPackage: 'libnss3' },
    ]),
  ).toBe(
    'This machine lacks gcc, g++, libnss3.so; on Debian install them with: sudo apt-get install build-essential libnss3',
  );
});

test('a command and a library that this machine has are not missing, invented ones are', async () => {
  const missing = await findMissing([
    { kind: 'command', name: 'sh', debianPackage: 'dash' },
    { kind: 'command', name: 'no-such-command-here', debianPackage: 'none' },
    { kind: 'library', name: 'libc.so.6', debianPackage: 'libc6' },
    { kind: 'library', name: 'libnosuch.so.1', debianPackage: 'none' },
  ]);
  // Elsewhere Electron and the packages bring all they need.
  const expected = process.platform === 'linux' ? ['no-such-command-here', 'libnosuch.so.1'] : [];
  expect(missing.map((need) => need.name)).toEqual(expected);
});

test('SQLite is built with every switch that its package states', () => {
  const root = join(import.meta.dirname, '..', '..', '..');
  const buildFile = readFileSync(join(root, 'node_modules/better-sqlite3/deps/defines.gypi'), 'utf8');
  const defines = readDefines(buildFile);
  expect(defines).toContain('-DSQLITE_THREADSAFE=2');
  expect(defines).toContain('-DSQLITE_ENABLE_COLUMN_METADATA');
  expect(defines.length).toBe(
    buildFile.split('\n').filter((line) => line.trim().startsWith("'") && line.trim().endsWith("',")).length,
  );
});
