import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';

/**
 * Which of the words (or bytes) stand in files below the folders, or in their names: `word in path` for each. Text is
 * looked for as UTF-8 and as UTF-16LE, the two ways that SQLite and Chromium keep it. A book's lock is not read, which
 * would release it (book-lock.ts); nothing is ever written to it.
 */
export function searchBytes(folders: readonly string[], wanted: Readonly<Record<string, string | Buffer>>): string[] {
  const needles = Object.entries(wanted).flatMap(([name, what]) =>
    typeof what === 'string'
      ? [Buffer.from(what, 'utf8'), Buffer.from(what, 'utf16le')].map((bytes) => ({ name, bytes }))
      : [{ name, bytes: what }],
  );
  const found = new Set<string>();
  for (const path of folders.flatMap(filesBelow)) {
    const content = Buffer.concat([Buffer.from(`${path}\n`), readFileSync(path)]);
    for (const { name, bytes } of needles) if (content.includes(bytes)) found.add(`${name} in ${path}`);
  }
  return [...found];
}

/** The names of what was found anywhere, each once, sorted. */
export function namesFound(found: readonly string[]): string[] {
  return [...new Set(found.map((each) => each.replace(/ in .*$/, '')))].sort();
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && basename(entry.name) !== 'book.lock')
    .map((entry) => join(entry.parentPath, entry.name));
}
