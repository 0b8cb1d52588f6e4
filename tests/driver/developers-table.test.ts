import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { LAYERS } from '../support/layer-table.js';

/** Holds what the developers' pages say of files and folders against the tree. */

const ROOT = join(import.meta.dirname, '../..');
const PAGES = ['DEVELOPERS.md', ...globSync('docs/*.md', { cwd: ROOT })];
const read = (page: string): string => readFileSync(join(ROOT, page), 'utf8');

/** Folder -> what it may import, as the page says it. Several folders under one rule stand in one row. */
function rowsOfThePage(): Map<string, ReadonlySet<string>> {
  const rows = new Map<string, ReadonlySet<string>>();
  for (const line of read('DEVELOPERS.md').split('\n')) {
    const [, folders, , imports] = line.split('|').map((cell) => cell.trim());
    if (folders === undefined || imports === undefined || !/^`(core|electron|renderer)/.test(folders)) continue;
    for (const folder of named(folders)) rows.set(folder, new Set(named(imports).flatMap(together)));
  }
  return rows;
}

/** Names such as `window core` stand for the folders that the page lists below its table. */
function together(name: string): readonly string[] {
  const listed = new RegExp(`^- \`${name}\`: (.*)$`, 'm').exec(read('DEVELOPERS.md'));
  return listed === null ? [name] : named(listed[1] ?? '').flatMap(together);
}

function named(cell: string): readonly string[] {
  return [...cell.matchAll(/`([^`]+)`/g)].map(([, name = '']) => name);
}

test('the table of folders on the page is the rule', () => {
  const others = (folder: string, imports: Iterable<string>): string[] =>
    [...new Set(imports)].filter((name) => name !== folder).sort();
  const rule = Object.entries(LAYERS).map(([folder, { folders }]) => [folder, others(folder, folders)]);
  const page = [...rowsOfThePage()].map(([folder, imports]) => [folder, others(folder, imports)]);
  expect(Object.fromEntries(page)).toEqual(Object.fromEntries(rule));
});

test('every file that the pages name is there', () => {
  const files = globSync('{core,electron,renderer,resources,tests}/**/*', { cwd: ROOT });
  const isThere = (name: string): boolean => files.some((file) => file === name || file.endsWith(`/${name}`));
  const missing = PAGES.flatMap((page) =>
    [...read(page).matchAll(/`([\w./-]+\.(?:ts|tsx|js|css|json|md))`/g)].flatMap(([, name = '']) =>
      isThere(name) || globSync(name, { cwd: ROOT }).length > 0 ? [] : [`${page}: ${name}`],
    ),
  );
  expect(missing).toEqual([]);
});
