import { createHash } from 'node:crypto';
import { open } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { readingTrouble } from './file-trouble.ts';
import { requireFile } from './find-file.ts';
import { unlessSilent } from './unless-silent.ts';

/** Large enough that the disk sets the pace, small enough that a cancel is felt at once. */
const CHUNK_BYTES = 1024 * 1024;

export interface HashedFile {
  /** 64 hex digits, lower case. */
  readonly sha256: string;
  readonly bytes: number;
  /** Time of the last change, in milliseconds since 1970, as the file system told it. */
  readonly modifiedMs: number;
}

export interface HashOptions {
  readonly signal?: AbortSignal | undefined;
  /** Called after each chunk; `done` never falls and ends at `total`. Bytes. */
  readonly onProgress?: ((done: number, total: number) => void) | undefined;
  /** Given each chunk before the next is read; the chunk is only valid until the promise settles. */
  readonly onChunk?: ((chunk: Uint8Array) => Promise<void>) | undefined;
}

/**
 * Reads a whole file once and returns the SHA-256 of its bytes.
 *
 * @throws AppError `file-not-found`, `file-unreadable` (a folder, no right to read, no answer), `file-empty`, `cancelled`,
 *   `clip-changed` when the file grew or changed while it was read.
 */
export async function hashFile(path: string, options: HashOptions = {}): Promise<HashedFile> {
  let source: FileHandle;
  await requireFile(path);
  try {
    source = await unlessSilent(open(path, 'r'), path);
  } catch (error) {
    throw readingTrouble(error, path);
  }
  try {
    return await hashOpenFile(source, path, options);
  } finally {
    // A disk that does not answer does not close its files either.
    await unlessSilent(source.close(), path).catch(() => undefined);
  }
}

async function hashOpenFile(source: FileHandle, path: string, options: HashOptions): Promise<HashedFile> {
  const before = await source.stat();
  if (before.size === 0) throw new AppError('file-empty', say`${path} is empty.`);

  const hash = createHash('sha256');
  const chunk = new Uint8Array(Math.min(CHUNK_BYTES, before.size));
  let done = 0;
  // A file that grows as fast as it is read would never end.
  while (done <= before.size) {
    if (options.signal?.aborted === true) throw new AppError('cancelled', say`Cancelled.`);
    const { bytesRead } = await unlessSilent(source.read(chunk, 0, chunk.length), path).catch((error: unknown) => {
      throw readingTrouble(error, path);
    });
    if (bytesRead === 0) break;
    const part = chunk.subarray(0, bytesRead);
    hash.update(part);
    await options.onChunk?.(part);
    done += bytesRead;
    options.onProgress?.(Math.min(done, before.size), before.size);
  }

  const after = await source.stat();
  if (done !== before.size || after.size !== before.size || after.mtimeMs !== before.mtimeMs)
    throw new AppError('clip-changed', say`${path} is still being written. Wait until it is complete and try again.`);
  return { sha256: hash.digest('hex'), bytes: done, modifiedMs: before.mtimeMs };
}
