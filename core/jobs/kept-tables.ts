import { createHash } from 'node:crypto';
import { mkdir, readFile, readdir, rm, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { writeWholeFile } from '../files/write-whole-file.ts';
import { clipIndexOfText } from '../parse/clip-index.ts';
import type { ClipIndex } from '../time/clip-index.ts';

/** How much a folder of tables may hold; those unused for longest go first. */
export interface TableLimits {
  readonly count: number;
  /** Of all together. One of more than a quarter of that is not kept. */
  readonly bytes: number;
}

const LIMITS: TableLimits = { count: 200, bytes: 64e6 };
const NAME = /^[0-9a-f]{64}\.table$/;
/** What a kill left behind while a table was written. */
const LEFT_BEHIND = /^\..*\.part$/;
const LEFT_BEHIND_MS = 3_600_000;

/**
 * Frame tables in a folder, by a key of 64 hex digits. Each is a file: SHA-256 of the rest as 64 hex digits, a line end,
 * the index as JSON. It holds times and sizes, no name and no path. What cannot be read, written or made room for is as
 * if it were not kept: nothing is ever thrown, nothing wrong is ever answered. Several processes may use one folder.
 */
export class KeptTables {
  readonly #folder: string;
  readonly #limits: TableLimits;

  constructor(folder: string, limits: TableLimits = LIMITS) {
    this.#folder = folder;
    this.#limits = limits;
  }

  /** Null when there is none, or none that is whole. */
  async read(key: string): Promise<ClipIndex | null> {
    const path = this.#path(key);
    try {
      const { size } = await stat(path);
      if (size > this.#limits.bytes) return null;
      const text = await readFile(path, 'utf8');
      const content = text.slice(65);
      if (text.slice(0, 65) !== `${checkOf(content)}\n`) return null;
      const now = new Date();
      await utimes(path, now, now).catch(() => undefined);
      return clipIndexOfText(content);
    } catch {
      return null;
    }
  }

  async keep(key: string, index: ClipIndex): Promise<void> {
    const content = JSON.stringify(index);
    if (content.length > this.#limits.bytes / 4) return;
    try {
      await mkdir(this.#folder, { recursive: true, mode: 0o700 });
      await writeWholeFile(this.#path(key), `${checkOf(content)}\n${content}`, { overwrite: true });
      await this.#makeRoom();
    } catch {
      // A full disk or a folder that may not be written: the next one decodes again.
    }
  }

  #path(key: string): string {
    return join(this.#folder, `${key}.table`);
  }

  async #makeRoom(): Promise<void> {
    const names = await readdir(this.#folder);
    const files = await Promise.all(
      names.map(async (name) => {
        const path = join(this.#folder, name);
        const facts = await stat(path).catch(() => null);
        return facts === null ? [] : [{ name, path, bytes: facts.size, usedMs: facts.mtimeMs }];
      }),
    );
    const tables = files.flat().filter(({ name }) => NAME.test(name));
    let [count, bytes] = [0, 0];
    for (const table of tables.sort((a, b) => b.usedMs - a.usedMs)) {
      count += 1;
      bytes += table.bytes;
      if (count > this.#limits.count || bytes > this.#limits.bytes) await rm(table.path, { force: true });
    }
    for (const { name, path, usedMs } of files.flat())
      if (LEFT_BEHIND.test(name) && Date.now() - usedMs > LEFT_BEHIND_MS) await rm(path, { force: true });
  }
}

const checkOf = (content: string): string => createHash('sha256').update(content).digest('hex');
