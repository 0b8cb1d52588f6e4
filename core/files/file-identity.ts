import { createHash } from 'node:crypto';
import type { Hash } from 'node:crypto';
import { open } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';

/** Of each end. */
const END_BYTES = 64 * 1024;
/** File systems tell times in steps of up to 2 s (FAT): what changed so lately may change again unseen. */
const SETTLED_MS = 3000;

/**
 * A name for a file as it is now, 64 hex digits, that nobody can read a path or a person from: SHA-256 of its size, its
 * times of last change of content and of entry, and the bytes of its two ends. Null for a file that changed within the
 * last seconds, or whose times lie in the future.
 *
 * Not covered: bytes changed in the middle alone by someone who also sets both times back, which takes another clock.
 *
 * @throws what the system says of a file that cannot be read.
 */
export async function fileIdentity(path: string): Promise<string | null> {
  const file = await open(path, 'r');
  try {
    const { size, mtimeNs, ctimeNs, mtimeMs, ctimeMs } = await file.stat({ bigint: true });
    if (Date.now() - Number(mtimeMs > ctimeMs ? mtimeMs : ctimeMs) < SETTLED_MS) return null;
    const hash = createHash('sha256').update(`${size} ${mtimeNs} ${ctimeNs} `);
    return (await hashEnds(hash, file, Number(size))).digest('hex');
  } finally {
    await file.close();
  }
}

/**
 * A name for the content of a file that needs no reading of all of it, 64 hex digits: SHA-256 of its size and of the bytes
 * of its two ends, where cameras keep the tables of a clip. The same for a copy of it elsewhere. Not covered: bytes that
 * differ in the middle alone.
 *
 * @throws what the system says of a file that cannot be read.
 */
export async function contentMark(path: string): Promise<string> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    return (await hashEnds(createHash('sha256').update(`${size} `), file, size)).digest('hex');
  } finally {
    await file.close();
  }
}

async function hashEnds(hash: Hash, file: FileHandle, size: number): Promise<Hash> {
  hash.update(await endBytes(file, 0));
  return hash.update(await endBytes(file, Math.max(0, size - END_BYTES)));
}

async function endBytes(file: FileHandle, from: number): Promise<Uint8Array> {
  const bytes = new Uint8Array(END_BYTES);
  let done = 0;
  while (done < bytes.length) {
    const { bytesRead } = await file.read(bytes, done, bytes.length - done, from + done);
    if (bytesRead === 0) break;
    done += bytesRead;
  }
  return bytes.subarray(0, done);
}
