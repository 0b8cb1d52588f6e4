import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { writePicture } from '../../../core/cli/write-picture.ts';
import { findFile, requireFile } from '../../../core/files/find-file.ts';
import { hashFile } from '../../../core/files/hash-file.ts';
import { isDiskSilent, unlessSilent } from '../../../core/files/unless-silent.ts';
import { readGoalsFile } from '../../../core/goals-file/read-goals-file.ts';
import { readSwingFile } from '../../../core/swing-file/read-swing-file.ts';
import { readClipFile } from '../../../core/video/index/clip-format.ts';
import { readSettings } from '../../../electron/settings-file.ts';
import { heldFile, noFiles } from '../../support/held-file.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused } from '../../support/trouble.ts';

/** Four seconds for the disk, and what a busy machine takes to start a process. */
const LONGEST_WAIT = 15_000;

test('a file is told as the system tells it, with its first bytes', async () => {
  const path = join(temporaryFolder(), 'note.txt');
  writeFileSync(path, 'Dear coach');
  const { size, mtimeMs, blocks } = statSync(path);
  expect(await findFile(path, 4)).toEqual({
    ...{ bytes: size, modifiedMs: mtimeMs, heldBytes: blocks * 512 },
    head: Uint8Array.from(Buffer.from('Dear')),
  });
  expect((await requireFile(path, 400)).head).toHaveLength(10);
  expect(await findFile(`${path}.not`)).toBeNull();
  await expectRefused(requireFile(`${path}.not`), 'file-not-found', /no file at/);
});

test('a hole counts as missing', async () => {
  const path = join(temporaryFolder(), 'hole');
  writeFileSync(path, 'x');
  truncateSync(path, 1e9);
  const { bytes, heldBytes } = await requireFile(path);
  expect(bytes).toBe(1e9);
  expect(heldBytes).toBeLessThan(1e6);
});

test('what is no file is told as what it is, by all that read files, and nothing waits for it', async () => {
  const { folder, pipe, line, device } = await noFiles();
  for (const read of [readClipFile, readSwingFile, readGoalsFile, hashFile]) {
    await expectRefused(read(folder), 'file-unreadable', /is a folder, not a file/);
    await expectRefused(read(pipe), 'file-unreadable', /is a pipe between programs, not a file/);
    await expectRefused(read(line), 'file-unreadable', /is a line between programs, not a file/);
    await expectRefused(read(device), 'file-unreadable', /is a device, not a file/);
  }
  await expectRefused(writePicture(pipe, new Uint8Array(8)), 'file-exists', /left alone/);
  expect((await readSettings(pipe)).trouble).toMatch(/pipe/);
});

test('a file that never opens is told in time, however many there are, and others are read meanwhile', async () => {
  const path = join(temporaryFolder(), 'swing.mp4');
  writeFileSync(path, 'a clip');
  const held = await heldFile(path, 'held.mp4');
  const began = performance.now();
  // More than there are threads for reading files in one process.
  const asked = Array.from({ length: 6 }, () =>
    expectRefused(findFile(held), 'file-unreadable', /does not answer.*plugged in/),
  );
  expect((await requireFile(path)).bytes).toBe(6);
  expect((await hashFile(path)).bytes).toBe(6);
  expect(performance.now() - began).toBeLessThan(LONGEST_WAIT);
  await Promise.all(asked);
  expect(performance.now() - began).toBeLessThan(2 * LONGEST_WAIT);
  expect(isDiskSilent()).toBe(false);
}, 60_000);

test('a read that is not answered is given up with the same sentence, and known to hang until it is answered', async () => {
  let answer = (): void => undefined;
  const read = new Promise<void>((resolve) => (answer = resolve));
  await expectRefused(unlessSilent(read, '/share/swing.mp4', 20), 'file-unreadable', /does not answer/);
  expect(isDiskSilent()).toBe(true);
  answer();
  await read;
  expect(isDiskSilent()).toBe(false);
});

test('several looks at once share the process that is ready: to start another takes longer than all of them', async () => {
  const path = join(temporaryFolder(), 'swing.mp4');
  writeFileSync(path, 'a clip');
  await findFile(path);
  const before = lookersOf(process.pid);
  const found = await Promise.all(Array.from({ length: 5 }, () => findFile(path)));
  expect(found.map((facts) => facts?.bytes)).toEqual([6, 6, 6, 6, 6]);
  expect(lookersOf(process.pid)).toEqual(before);
});

test('who waits for a disk ends with the program, also when that is killed', async () => {
  const path = join(temporaryFolder(), 'swing.mp4');
  writeFileSync(path, 'a clip');
  const held = await heldFile(path, 'held.mp4');
  const child = join(import.meta.dirname, 'children', 'look-once.ts');
  const program = spawn(process.execPath, [child, held], { stdio: ['ignore', 'ignore', 'inherit'] });
  await expect.poll(() => lookersOf(program.pid), { timeout: LONGEST_WAIT }).toHaveLength(1);
  const [looker = 0] = lookersOf(program.pid);
  // By then it waits for the file, and hears nothing.
  await delay(2000);
  program.kill('SIGKILL');
  await expect.poll(() => isAlive(looker), { timeout: LONGEST_WAIT }).toBe(false);
}, 60_000);

function lookersOf(parent: number | undefined): number[] {
  const found = spawnSync('pgrep', ['-P', String(parent), '-f', 'probe-process'], { encoding: 'utf8' });
  return found.stdout.split('\n').filter(Boolean).map(Number);
}

test('who looks at files does not keep a program from ending, and ends with it', async () => {
  const child = join(import.meta.dirname, 'children', 'look-once.ts');
  const program = spawn(process.execPath, [child, import.meta.filename], { stdio: ['ignore', 'pipe', 'inherit'] });
  const [told] = (await once(program.stdout, 'data')) as [Buffer];
  const [code] = (await once(program, 'exit')) as [number | null];
  expect(code).toBe(0);
  const looker = Number(String(told));
  expect(looker).toBeGreaterThan(1);
  await expect.poll(() => isAlive(looker), { timeout: LONGEST_WAIT }).toBe(false);
}, 60_000);

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}
