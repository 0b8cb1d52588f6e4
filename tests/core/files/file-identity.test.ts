import {
  copyFileSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { afterAll, describe, expect, test } from 'vitest';
import { fileIdentity } from '../../../core/files/file-identity.ts';

const SIZE = 300_000;
/** Longer than a file must have been left alone to have an identity. */
const LONG_ENOUGH_MS = 3100;

const all = mkdtempSync(join(tmpdir(), 'baybook-test-'));
afterAll(() => rmSync(all, { recursive: true }));
const newFolder = (): string => mkdtempSync(join(all, 'one-'));

/** The identity once the file has been left alone for long enough. */
async function settledIdentity(path: string): Promise<string | null> {
  await delay(LONG_ENOUGH_MS);
  return fileIdentity(path);
}

// At the same time: they only wait.
describe.concurrent('the identity of a file', () => {
  test('a file that is left alone keeps its identity, also under another descriptor; one just written has none', async () => {
    const path = join(newFolder(), 'a');
    writeFileSync(path, new Uint8Array(SIZE));
    expect(await fileIdentity(path)).toBeNull();
    const identity = await settledIdentity(path);
    expect(identity).toMatch(/^[0-9a-f]{64}$/);
    expect(await fileIdentity(path)).toBe(identity);
  });

  test('a byte changed at the head, the middle or the tail, with size and time of change set back, is another file', async () => {
    const folder = newFolder();
    const places = [10, SIZE / 2, SIZE - 10];
    const paths = places.map((place) => join(folder, String(place)));
    for (const path of paths) writeFileSync(path, new Uint8Array(SIZE));
    await delay(LONG_ENOUGH_MS);
    const before = await Promise.all(paths.map((path) => fileIdentity(path)));
    for (const [at, path] of paths.entries()) {
      const { atime, mtime } = statSync(path);
      const bytes = readFileSync(path);
      bytes[places[at] ?? 0] = 1;
      writeFileSync(path, bytes);
      utimesSync(path, atime, mtime);
      expect(statSync(path)).toMatchObject({ size: SIZE, mtimeMs: mtime.getTime() });
    }
    await delay(LONG_ENOUGH_MS);
    const after = await Promise.all(paths.map((path) => fileIdentity(path)));
    expect([...before, ...after]).not.toContain(null);
    for (const [at, identity] of after.entries()) expect(identity).not.toBe(before[at]);
  });

  test('another file under the same name is another file', async () => {
    const folder = newFolder();
    const [path, other] = [join(folder, 'a'), join(folder, 'b')];
    writeFileSync(path, new Uint8Array(SIZE));
    copyFileSync(path, other);
    const identity = await settledIdentity(path);
    renameSync(other, path);
    expect(await settledIdentity(path)).not.toBe(identity);
  });

  test('a time of change in the future says nothing; a missing file is refused', async () => {
    const path = join(newFolder(), 'a');
    writeFileSync(path, 'x');
    const later = new Date(Date.now() + 3_600_000);
    utimesSync(path, later, later);
    expect(await settledIdentity(path)).toBeNull();
    rmSync(path);
    await expect(fileIdentity(path)).rejects.toMatchObject({ code: 'ENOENT' });
  });
});
