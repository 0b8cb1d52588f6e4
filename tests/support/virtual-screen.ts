import { spawn } from 'node:child_process';

/** A screen that nobody sees, for window tests on a machine without one. */
export interface VirtualScreen {
  /** For the environment variable DISPLAY, e.g. ":3". */
  readonly display: string;
  close(): Promise<void>;
}

const START_LIMIT = 15_000;

/** Starts an own Xvfb of this size in pixels on a display number that Xvfb itself finds free. */
export async function openVirtualScreen(width: number, height: number): Promise<VirtualScreen> {
  const child = spawn(
    'Xvfb',
    ['-displayfd', '3', '-screen', '0', `${width}x${height}x24`, '-nolisten', 'tcp', '-noreset'],
    { stdio: ['ignore', 'ignore', 'pipe', 'pipe'] },
  );
  const stop = (): boolean => child.kill('SIGKILL');
  process.once('exit', stop);
  const ended = new Promise<void>((resolve) => child.once('close', () => resolve()));

  const display = await new Promise<string>((resolve, reject) => {
    let answer = '';
    let complaint = '';
    const timer = setTimeout(() => {
      stop();
      reject(new Error(`Xvfb did not start within ${START_LIMIT} ms. ${complaint}`));
    }, START_LIMIT);
    child.stderr?.on('data', (chunk: Buffer) => (complaint = (complaint + chunk.toString()).slice(-1000)));
    child.stdio[3]?.on('data', (chunk: Buffer) => {
      answer += chunk.toString();
      if (!answer.includes('\n')) return;
      clearTimeout(timer);
      resolve(`:${answer.trim()}`);
    });
    child.once('error', reject);
    child.once('close', () => reject(new Error(`Xvfb ended at once. ${complaint}`)));
  });

  return {
    display,
    async close() {
      process.off('exit', stop);
      child.kill('SIGTERM');
      const timer = setTimeout(stop, 5000);
      await ended;
      clearTimeout(timer);
    },
  };
}
