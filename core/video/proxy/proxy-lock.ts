import { randomUUID } from 'node:crypto';
import { open, readFile, rm, stat, utimes } from 'node:fs/promises';
import { isAbsent, isTaken, writingTrouble } from '../../files/file-trouble.ts';

/** The right to write one proxy. */
export interface ProxyLock {
  /** Whether it is still ours: a process that slept for long may have been taken for gone. */
  held(): Promise<boolean>;
  release(): Promise<void>;
}

/** How often the holder shows that it is there, and after how long without it is taken for gone. Milliseconds. */
const SIGN_OF_LIFE_MS = 10_000;
const GONE_AFTER_MS = 90_000;

/** Locks of this very process. A number of a process may come back, even to us; these names do not. */
const ours = new Set<string>();

/**
 * Takes the lock that the file at `path` stands for, or returns null while another one holds it. That of a process that
 * is gone counts for nothing.
 *
 * Throws AppError `disk-full`, `not-writable`.
 */
export async function takeProxyLock(path: string): Promise<ProxyLock | null> {
  const name = `${process.pid} ${randomUUID()}`;
  for (let attempt = 0; ; attempt += 1)
    try {
      const file = await open(path, 'wx');
      try {
        await file.writeFile(name);
      } catch (error) {
        await rm(path, { force: true });
        throw error;
      } finally {
        await file.close();
      }
      break;
    } catch (error) {
      if (!isTaken(error)) throw writingTrouble(error, path);
      if (attempt > 0 || (await isHeld(path))) return null;
      await rm(path, { force: true });
    }
  ours.add(name);
  const timer = setInterval(() => {
    const now = new Date();
    utimes(path, now, now).catch(() => undefined);
  }, SIGN_OF_LIFE_MS);
  timer.unref();
  const held = async (): Promise<boolean> => (await readFile(path, 'utf8').catch(() => null)) === name;
  return {
    held,
    async release() {
      clearInterval(timer);
      if (await held()) await rm(path, { force: true });
      ours.delete(name);
    },
  };
}

/** Whether somebody who is still there holds the lock. */
export async function isHeld(path: string): Promise<boolean> {
  try {
    const [text, { mtimeMs }] = [await readFile(path, 'utf8'), await stat(path)];
    if (Date.now() - mtimeMs > GONE_AFTER_MS) return false;
    const pid = Number.parseInt(text, 10);
    // Just made, its name is not written yet.
    if (!Number.isInteger(pid) || pid <= 0) return true;
    return pid === process.pid ? ours.has(text) : isRunning(pid);
  } catch (error) {
    return !isAbsent(error);
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // Anything else than "no such process" means that it is there and not ours to ask.
    return !(error instanceof Error && 'code' in error && error.code === 'ESRCH');
  }
}
