import { inFigures } from '../../model/language.ts';
import { readdir, rm, stat, statfs } from 'node:fs/promises';
import { join } from 'node:path';
import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import { copyOfFile, dataPath, lockPath, tablePath } from './proxy-disk.ts';
import { takeProxyLock } from './proxy-lock.ts';

/** What the copy of one clip takes on disk. */
export interface StoredCopy {
  readonly sha256: string;
  readonly bytes: number;
  /** When it was last opened or written to, milliseconds since 1970. */
  readonly usedMs: number;
}

export interface RoomLimits {
  /** Bytes that all copies of the folder may take together. */
  readonly limitBytes: number;
  /** Bytes of the disk that stay free for everything else. */
  readonly keepFreeBytes: number;
}

/** Room is given in pieces of this size at most, so that the folder is not looked through for every picture. */
const PIECE_BYTES = 8 * 1024 * 1024;
const GIGABYTE = 1e9;

/** All copies of a folder, whole or not; none when there is no such folder. */
export async function storedCopies(folder: string): Promise<StoredCopy[]> {
  const copies = new Map<string, StoredCopy>();
  for (const name of await readdir(folder).catch(() => [])) {
    const sha256 = copyOfFile(name);
    const facts = sha256 === null ? null : await stat(join(folder, name)).catch(() => null);
    if (sha256 === null || facts === null) continue;
    const known = copies.get(sha256) ?? { bytes: 0, usedMs: 0 };
    const usedMs = Math.max(known.usedMs, facts.mtimeMs);
    copies.set(sha256, { sha256, bytes: known.bytes + facts.size, usedMs });
  }
  return [...copies.values()];
}

/** How many more bytes may be written: below zero when there are too many already. */
export function roomLeft(usedBytes: number, freeBytes: number, limits: RoomLimits): number {
  return Math.min(limits.limitBytes - usedBytes, freeBytes - limits.keepFreeBytes);
}

/**
 * Makes room for `bytes` more; copies go whole, the one longest unused first, but none that `isOpen`. Returns how many
 * bytes may be written before room must be made again, at least `bytes`.
 *
 * Throws AppError `disk-full`, with `detail.cause` = `limit` (of the folder) or `disk`.
 */
export async function makeRoom(
  folder: string,
  bytes: number,
  limits: RoomLimits,
  isOpen: (sha256: string) => boolean,
): Promise<number> {
  const copies = await storedCopies(folder);
  let used = copies.reduce((sum, copy) => sum + copy.bytes, 0);
  let free = await freeBytes(folder);
  for (const copy of copies.sort((a, b) => a.usedMs - b.usedMs)) {
    if (roomLeft(used, free, limits) >= bytes) break;
    if (isOpen(copy.sha256) || !(await deleteCopy(folder, copy.sha256))) continue;
    used -= copy.bytes;
    free = await freeBytes(folder);
  }
  const room = roomLeft(used, free, limits);
  if (room >= bytes) return Math.min(room, Math.max(bytes, PIECE_BYTES));
  const [detail, gigabytes] = [{ folder, used, free }, (amount: number) => inFigures((amount / GIGABYTE).toFixed(1))];
  if (limits.limitBytes - used < bytes)
    throw new AppError(
      'disk-full',
      say`The clips that are open need more than the ${gigabytes(limits.limitBytes)} GB set aside for moving through clips quickly; close some, or cut this clip to the swing.`,
      { detail: { ...detail, cause: 'limit' } },
    );
  throw new AppError(
    'disk-full',
    say`Less than ${gigabytes(limits.keepFreeBytes)} GB are free on the disk of ${folder}; make room, so that clips can be moved through quickly.`,
    { detail: { ...detail, cause: 'disk' } },
  );
}

/** Deletes a copy unless somebody is writing it; the list first, without which the rest is nothing. */
export async function deleteCopy(folder: string, sha256: string): Promise<boolean> {
  // On a disk that is full to the last byte no lock can be written, and deleting is what helps.
  const lock = await takeProxyLock(lockPath(folder, sha256)).catch(() => undefined);
  if (lock === null) return false;
  try {
    await rm(tablePath(folder, sha256), { force: true });
    await rm(dataPath(folder, sha256), { force: true });
    return true;
  } catch {
    return false;
  } finally {
    await lock?.release().catch(() => undefined);
  }
}

/** Free for this user. A file system that does not tell is taken for one with room; writing will say otherwise. */
async function freeBytes(folder: string): Promise<number> {
  const facts = await statfs(folder).catch(() => null);
  return facts === null ? Number.POSITIVE_INFINITY : facts.bavail * facts.bsize;
}
