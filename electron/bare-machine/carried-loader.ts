import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * Stands in for Electron's default app, which the carried Electron lacks, and knows the part of its command line that we
 * use: `-r FILE` loads a script first (test drivers hold the start back with it), the first word that is no option names
 * the folder of the app to run.
 *
 * A module with a top-level await, because Electron holds back `ready` until its entry module has finished: what an app
 * must say before `ready` (its own protocols) would come too late from a plain asynchronous import.
 */
const LOADER = `import { app } from 'electron';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
const words = process.argv.slice(1);
const first = [];
let folder = '.';
for (let word = words.shift(); word !== undefined; word = words.shift()) {
  if (word === '-r' || word === '--require') first.push(resolve(words.shift()));
  else if (!word.startsWith('-')) {
    folder = word;
    break;
  }
}
folder = resolve(folder);
const facts = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
app.setAppPath(folder);
app.setName(facts.productName ?? facts.name);
try {
  for (const script of first) createRequire(import.meta.url)(script);
  await import(pathToFileURL(join(folder, facts.main)).href);
} catch (error) {
  console.error(error);
  process.exit(1);
}
`;
const PACKAGE = `${JSON.stringify({ name: 'loader', type: 'module', main: 'index.js' })}\n`;

/** Puts the loader into the carried Electron's folder, or brings an older one up to date. */
export async function writeLoader(carriedFolder: string): Promise<void> {
  const folder = join(carriedFolder, 'resources', 'app');
  await mkdir(folder, { recursive: true });
  await writeIfOther(join(folder, 'package.json'), PACKAGE);
  await writeIfOther(join(folder, 'index.js'), LOADER);
}

/** Whole or not at all: another start may be reading the file. */
async function writeIfOther(path: string, text: string): Promise<void> {
  const present = await readFile(path, 'utf8').catch(() => null);
  if (present === text) return;
  const work = `${path}.${process.pid}`;
  await writeFile(work, text);
  await rename(work, path);
}
