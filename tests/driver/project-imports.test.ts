import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { listCodeFiles, readImports } from '../support/project-imports.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

test('every way to import is found, and types are told from values', () => {
  const root = temporaryFolder();
  mkdirSync(join(root, 'a'));
  writeFileSync(
    join(root, 'a', 'b.ts'),
    `import type { T } from './t.ts';
     import { type U, v } from '../c/u.ts';
     import 'node:fs';
     export * from './e.ts';
     export type { X } from 'pkg/x';
     const late = () => import('../c/late.ts');
     let q: import('typed').Q;
     const r = require('old');
     // import 'comment';
     const text = "import 'text'";`,
  );
  expect(readImports(root, 'a/b.ts').map(({ specifier, target, typeOnly }) => [specifier, target, typeOnly])).toEqual([
    ['./t.ts', 'a/t.ts', true],
    ['../c/u.ts', 'c/u.ts', false],
    ['node:fs', null, false],
    ['./e.ts', 'a/e.ts', false],
    ['pkg/x', null, true],
    ['../c/late.ts', 'c/late.ts', false],
    ['typed', null, true],
    ['old', null, false],
  ]);
});

test('an import whose name is made up at run time is refused', () => {
  const root = temporaryFolder();
  writeFileSync(join(root, 'a.ts'), 'const name = "x"; void import(name);');
  expect(() => readImports(root, 'a.ts')).toThrow(/made up at run time/);
});

test('files with code are found in every folder but those that are fetched or built', () => {
  const root = temporaryFolder();
  for (const folder of ['x/y', 'node_modules/p', 'out', '.cache/t']) mkdirSync(join(root, folder), { recursive: true });
  for (const file of ['x/y/a.tsx', 'x/b.mjs', 'x/readme.md', 'node_modules/p/c.js', 'out/d.js', '.cache/t/e.ts'])
    writeFileSync(join(root, file), '');
  expect(listCodeFiles(root)).toEqual(['x/b.mjs', 'x/y/a.tsx']);
});
