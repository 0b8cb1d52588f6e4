import { resolve } from 'node:path';
import { LRUCache } from 'lru-cache';
import type { ClipIndex } from '../../time/clip-index.ts';
import { readClipFile } from './clip-format.ts';
import type { ReadOptions } from './clip-source.ts';
import { readClipIndex } from './read-clip-index.ts';

/** Of a clip of three minutes a table takes some megabytes. */
const recent = new LRUCache<string, ClipIndex>({ max: 2 });

/**
 * The table of frames of a file as its own list tells it, kept for the two read last: whoever chooses a clip asks for it
 * again and again until a part of it is in the book. A changed file is read anew.
 *
 * Throws AppError as `readClipIndex`.
 */
export async function readRecentIndex(path: string, options: ReadOptions): Promise<ClipIndex> {
  const { bytes, modifiedMs } = await readClipFile(path);
  const key = `${bytes}|${modifiedMs}|${resolve(path)}`;
  const index = recent.get(key) ?? (await readClipIndex(path, { ...options, byTables: true }));
  recent.set(key, index);
  return index;
}
