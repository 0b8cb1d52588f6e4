import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { findPoses } from '../../core/pose/find-poses.ts';

/** Grey, so that nobody is there. */
const GREY = [{ width: 64, height: 48, data: new Uint8Array(64 * 48 * 4).fill(128) }];
const never = new AbortController().signal;

/** The processes of ours that look for bodies, this test's own, by number. */
function lookers(): readonly number[] {
  try {
    const found = execFileSync('pgrep', ['-P', String(process.pid), '-f', 'pose-process'], { encoding: 'utf8' });
    return found.trim().split('\n').map(Number);
  } catch {
    // Its way of saying that there is none.
    return [];
  }
}

async function firstLooker(): Promise<number> {
  const looker = async (): Promise<number | undefined> => lookers()[0];
  await expect.poll(looker, { timeout: 20_000 }).toBeDefined();
  return lookers()[0] ?? 0;
}

test('a process that stands still is ended, and another one answers', async () => {
  const found: number[] = [];
  const run = findPoses([GREY, GREY], { signal: never, onPose: (count) => found.push(count), limitMs: 15_000 });
  const first = await firstLooker();
  process.kill(first, 'SIGSTOP');
  expect(await run).toEqual([null, null]);
  expect(found).toEqual([1, 2]);
  await expect.poll(lookers).toEqual([]);
}, 120_000);

test('where none answers in time, that is said, and none is left', async () => {
  const run = findPoses([GREY], { signal: never, onPose: () => undefined, limitMs: 1 });
  await expect(run).rejects.toMatchObject({ code: 'timed-out' });
  await expect.poll(lookers).toEqual([]);
}, 60_000);

test('a cancel ends it at once, also when it stands still', async () => {
  const control = new AbortController();
  const run = findPoses([GREY], { signal: control.signal, onPose: () => undefined });
  run.catch(() => undefined);
  process.kill(await firstLooker(), 'SIGSTOP');
  control.abort();
  await expect(run).rejects.toThrow('aborted');
  await expect.poll(lookers).toEqual([]);
}, 60_000);
