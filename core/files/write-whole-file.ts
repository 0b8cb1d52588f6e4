import { randomUUID } from 'node:crypto';
import { link, open, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { isTaken, writingTrouble } from './file-trouble.ts';

/**
 * Writes a file so that at any moment, also after a kill or a power cut, `path` holds either what it held before or
 * all of `content`. A file that is already there is only replaced when `overwrite` is true.
 *
 * @throws AppError `file-exists`, `disk-full`, `not-writable`.
 */
export async function writeWholeFile(
  path: string,
  content: string | Uint8Array,
  { overwrite = false }: { overwrite?: boolean | undefined } = {},
): Promise<void> {
  const temporary = join(dirname(path), `.${randomUUID()}.part`);
  try {
    const file = await open(temporary, 'wx');
    try {
      await file.writeFile(content);
      await file.sync();
    } finally {
      await file.close();
    }
    if (overwrite) await rename(temporary, path);
    else await renameToFreeName(temporary, path);
    await syncFolder(dirname(path));
  } catch (error) {
    throw writingTrouble(error, path);
  } finally {
    // Where the folder is no folder, this fails too; the first trouble is the one to tell.
    await rm(temporary, { force: true }).catch(() => undefined);
  }
}

/** A rename replaces silently, a hard link does not; where links are unknown (exFAT) the name is taken first. */
async function renameToFreeName(temporary: string, path: string): Promise<void> {
  try {
    await link(temporary, path);
  } catch (error) {
    if (isTaken(error)) throw error;
    await (await open(path, 'wx')).close();
    await rename(temporary, path);
  }
}

/** Makes a new name in a folder survive a power cut. Windows opens no folders and needs none of this. */
export async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
