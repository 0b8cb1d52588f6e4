import { mkdir, readdir, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import { isHeld, takeProxyLock } from '../../core/video/proxy/proxy-lock.ts';

const LOOK_MS = 500;

/**
 * Has a folder made that takes long, once for all processes that want it at the same time; `make` gets a folder of its own,
 * which then takes the name `path`. Others wait as long as its maker is there. What one that was ended has left is
 * cleared away, and the next one makes it at once.
 */
export async function madeOnce(path: string, make: (work: string) => Promise<void>): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  const lockFile = `${path}.lock`;
  while (!(await isThere(path))) {
    const lock = await takeProxyLock(lockFile);
    if (lock === null) {
      await rest(LOOK_MS);
      continue;
    }
    const work = `${path}.making`;
    try {
      // It may have been made between the look and the lock.
      if (await isThere(path)) return;
      await rm(work, { recursive: true, force: true });
      await mkdir(work);
      await make(work);
      await rename(work, path);
    } finally {
      await rm(work, { recursive: true, force: true });
      await lock.release();
    }
  }
}

/** Deletes what was made under other names in the folder of `path`, and what nobody is making any more. */
export async function clearEarlier(path: string): Promise<void> {
  const folder = dirname(path);
  for (const name of await readdir(folder)) {
    const of = name.replace(/\.(lock|making)$/, '');
    if (of === basename(path) || (await isHeld(join(folder, `${of}.lock`)))) continue;
    await rm(join(folder, name), { recursive: true, force: true });
  }
}

async function isThere(path: string): Promise<boolean> {
  return (await stat(path).catch(() => null)) !== null;
}
