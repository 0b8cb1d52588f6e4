import { createHash } from 'node:crypto';
import { createServer } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';

const POLL_INTERVAL = 500;

/**
 * Runs `work` while no other process on this machine runs work of the same name; waits for its turn, and calls
 * `onWait` once if it has to. Linux only: the lock is an abstract socket name, which the kernel frees when its holder
 * ends in whatever way, so that a killed start never leaves a stale lock.
 */
export async function holdLock<T>(name: string, onWait: () => void, work: () => Promise<T>): Promise<T> {
  // Socket names are short (107 bytes), paths are not.
  const address = `\0baybook-${createHash('sha256').update(name).digest('hex').slice(0, 32)}`;
  let waited = false;
  let release = await tryListen(address);
  while (release === null) {
    if (!waited) onWait();
    waited = true;
    await wait(POLL_INTERVAL);
    release = await tryListen(address);
  }
  try {
    return await work();
  } finally {
    await release();
  }
}

/** Takes the socket name and returns how to give it back, or null when another process has it. */
function tryListen(address: string): Promise<(() => Promise<void>) | null> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') resolve(null);
      else reject(error);
    });
    server.listen(address, () => {
      server.unref();
      resolve(() => new Promise((closed) => server.close(() => closed())));
    });
  });
}
