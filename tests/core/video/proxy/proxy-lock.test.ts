import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { isHeld, takeProxyLock } from '../../../../core/video/proxy/proxy-lock.ts';
import { temporaryFolder } from '../../../support/temporary-folder.ts';
import { expectRefused } from '../../../support/trouble.ts';

const lockFile = (): string => join(temporaryFolder(), 'clip.lock');
const minutesAgo = (minutes: number): Date => new Date(Date.now() - minutes * 60_000);

it('is held by one at a time, and free again when it is let go', async () => {
  const path = lockFile();
  const taken = await Promise.all(Array.from({ length: 10 }, () => takeProxyLock(path)));
  const [lock, ...more] = taken.filter((one) => one !== null);
  expect(more).toEqual([]);
  expect(await lock?.held()).toBe(true);
  expect(await isHeld(path)).toBe(true);
  expect(await takeProxyLock(path)).toBe(null);

  await lock?.release();
  expect(existsSync(path)).toBe(false);
  expect(await isHeld(path)).toBe(false);
  const next = await takeProxyLock(path);
  expect(await next?.held()).toBe(true);
  await next?.release();
});

it('counts for nothing when its process is gone', async () => {
  const gone = spawnSync(process.execPath, ['-e', 'console.log(process.pid)'], { encoding: 'utf8' }).stdout.trim();
  for (const name of [`${gone} a`, `${process.pid} of an earlier process with our number`]) {
    const path = lockFile();
    writeFileSync(path, name);
    expect(await isHeld(path)).toBe(false);
    const lock = await takeProxyLock(path);
    expect(await lock?.held()).toBe(true);
    await lock?.release();
  }
});

it('holds for another process that runs, until it shows no sign of life for minutes', async () => {
  const path = lockFile();
  // The process that started this one runs as long as this one waits for its answer.
  writeFileSync(path, `${process.ppid} x`);
  expect(await takeProxyLock(path)).toBe(null);
  utimesSync(path, minutesAgo(1), minutesAgo(1));
  expect(await takeProxyLock(path)).toBe(null);
  utimesSync(path, minutesAgo(3), minutesAgo(3));
  const lock = await takeProxyLock(path);
  expect(await lock?.held()).toBe(true);
  await lock?.release();
});

it('holds while its name is being written, but an empty one does not hold for ever', async () => {
  const path = lockFile();
  writeFileSync(path, '');
  expect(await takeProxyLock(path)).toBe(null);
  utimesSync(path, minutesAgo(3), minutesAgo(3));
  const lock = await takeProxyLock(path);
  expect(lock).not.toBe(null);
  await lock?.release();
});

it('tells its holder when another one took over, and is then left to that one', async () => {
  const path = lockFile();
  const lock = await takeProxyLock(path);
  writeFileSync(path, `${process.ppid} y`);
  expect(await lock?.held()).toBe(false);
  await lock?.release();
  expect(readFileSync(path, 'utf8')).toBe(`${process.ppid} y`);
});

it('says so where nothing can be written', async () => {
  await expectRefused(takeProxyLock(join(temporaryFolder(), 'nowhere', 'clip.lock')), 'not-writable');
});
