import { open, readFile } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import { parseTable } from './proxy-table.ts';
import type { ProxyTable } from './proxy-table.ts';

/** The pictures of a copy, one after another. Names on the disk stay as they are, so that no copy is left behind. */
export function dataPath(folder: string, sha256: string): string {
  return join(folder, `${sha256}.scrub`);
}

/** Its list of pictures. */
export function tablePath(folder: string, sha256: string): string {
  return join(folder, `${sha256}.frames`);
}

/** Stands there while somebody writes the copy. */
export function lockPath(folder: string, sha256: string): string {
  return join(folder, `${sha256}.lock`);
}

/** The name of the clip whose copy a file belongs to, or null for any other file. */
export function copyOfFile(name: string): string | null {
  return /^([0-9a-f]{64})\.(?:scrub|frames)$/.exec(name)?.[1] ?? null;
}

export interface OpenedCopy {
  readonly data: FileHandle;
  /** Its place among the titles asked for. */
  readonly which: number;
  readonly table: ProxyTable;
}

/** Opens a copy as far as it holds; null when there is none with one of the titles, or it cannot be opened. */
export async function openCopyFiles(
  folder: string,
  sha256: string,
  titles: readonly string[],
  flags: 'r' | 'r+',
): Promise<OpenedCopy | null> {
  let data: FileHandle | null = null;
  try {
    // The list before the size: whatever it says had been written by then.
    const text = await readFile(tablePath(folder, sha256), 'latin1');
    data = await open(dataPath(folder, sha256), flags);
    const { size } = await data.stat();
    for (const [which, title] of titles.entries()) {
      const table = parseTable(text, title, size);
      if (table !== null) return { data, which, table };
    }
  } catch {
    // A copy that cannot be opened is as good as none; writing a new one will tell what is wrong.
  }
  await data?.close();
  return null;
}

/** Writes all of `data` at an offset. */
export async function writeAll(file: FileHandle, data: Uint8Array, at: number): Promise<void> {
  for (let done = 0; done < data.length;) {
    const { bytesWritten } = await file.write(data, done, data.length - done, at + done);
    done += bytesWritten;
  }
}
