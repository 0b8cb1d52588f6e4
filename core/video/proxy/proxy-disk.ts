import { open, readFile } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { parseTable, tableText } from './proxy-table.ts';
import type { ProxyTable, TableEnd, TableFrame } from './proxy-table.ts';

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

/**
 * Appends pictures and their lines to a copy that holds as far as `at` says; returns where its list ends then. What fails
 * leaves it as it was.
 */
export async function appendToCopy(
  files: { readonly data: FileHandle; readonly list: FileHandle },
  at: { readonly data: number; readonly list: TableEnd },
  data: Uint8Array,
  lines: readonly string[],
): Promise<TableEnd> {
  const { text, end } = tableText(at.list, lines);
  try {
    await writeAll(files.data, data, at.data);
    await writeAll(files.list, Buffer.from(text), at.list.length);
    return end;
  } catch (error) {
    // Half a batch would only take up room; what is cut off here would otherwise be cut off when it is opened.
    await files.data.truncate(at.data).catch(() => undefined);
    await files.list.truncate(at.list.length).catch(() => undefined);
    throw error;
  }
}

/** The picture at an offset; `spoilt` when it is not what was written, null when the disk does not answer for now. */
export async function readChecked(
  file: FileHandle,
  { at, bytes, crc }: TableFrame & { readonly at: number },
): Promise<Uint8Array | 'spoilt' | null> {
  const data = new Uint8Array(bytes);
  const { bytesRead } = await file.read(data, 0, bytes, at).catch(() => ({ bytesRead: null }));
  if (bytesRead === null) return null;
  return bytesRead === bytes && crc32(data) === crc ? data : 'spoilt';
}

async function writeAll(file: FileHandle, data: Uint8Array, at: number): Promise<void> {
  for (let done = 0; done < data.length;) {
    const { bytesWritten } = await file.write(data, done, data.length - done, at + done);
    done += bytesWritten;
  }
}
