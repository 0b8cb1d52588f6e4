import { mkdirSync, readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { takeProxyLock } from '../../../../core/video/proxy/proxy-lock.ts';
import { deleteCopy, makeRoom, roomLeft, storedCopies } from '../../../../core/video/proxy/proxy-room.ts';
import { temporaryFolder } from '../../../support/temporary-folder.ts';
import { expectRefused } from '../../../support/trouble.ts';

const sha = (digit: string): string => digit.repeat(64);
const NO_LIMIT = { limitBytes: 1e15, keepFreeBytes: 0 };
const noneOpen = (): boolean => false;

/** A copy of 1,000 bytes, of which the list has 100; `age` in minutes. */
function storeCopy(folder: string, digit: string, age: number): void {
  const used = new Date(Date.now() - age * 60_000);
  for (const [kind, bytes] of [
    ['scrub', 900],
    ['frames', 100],
  ] as const) {
    const path = join(folder, `${sha(digit)}.${kind}`);
    writeFileSync(path, Buffer.alloc(bytes));
    utimesSync(path, used, used);
  }
}

const left = (folder: string): string =>
  [...new Set(readdirSync(folder).map((name) => name.slice(0, 1)))].sort().join('');

it('knows what each copy takes, whole or not, and overlooks everything else', async () => {
  const folder = temporaryFolder();
  storeCopy(folder, 'a', 3);
  writeFileSync(join(folder, `${sha('b')}.scrub`), Buffer.alloc(5));
  writeFileSync(join(folder, `${sha('c')}.lock`), '1');
  writeFileSync(join(folder, 'holiday.scrub'), 'x');
  mkdirSync(join(folder, 'd'));
  const copies = await storedCopies(folder);
  expect(new Map(copies.map(({ sha256, bytes }) => [sha256, bytes]))).toEqual(
    new Map([
      [sha('a'), 1000],
      [sha('b'), 5],
    ]),
  );
  expect(await storedCopies(join(folder, 'nowhere'))).toEqual([]);
});

it('has room within both limits', () => {
  const limits = { limitBytes: 100, keepFreeBytes: 30 };
  expect(roomLeft(40, 1000, limits)).toBe(60);
  expect(roomLeft(40, 50, limits)).toBe(20);
  expect(roomLeft(140, 1000, limits)).toBe(-40);
  expect(roomLeft(0, 10, limits)).toBe(-20);
});

it('lets the copies go that are longest unused, whole, and no more than needed', async () => {
  const folder = temporaryFolder();
  for (const [digit, age] of [
    ['a', 5],
    ['b', 50],
    ['c', 1],
    ['d', 20],
  ] as const)
    storeCopy(folder, digit, age);
  const limits = { ...NO_LIMIT, limitBytes: 4500 };
  expect(await makeRoom(folder, 500, limits, noneOpen)).toBe(500);
  expect(left(folder)).toBe('abcd');
  expect(await makeRoom(folder, 501, limits, noneOpen)).toBe(1500);
  expect(left(folder)).toBe('acd');
  expect(await makeRoom(folder, 3000, limits, noneOpen)).toBe(3500);
  expect(left(folder)).toBe('c');
});

it('lets none go that is open or being written, and says what to do', async () => {
  const folder = temporaryFolder();
  for (const digit of ['a', 'b', 'c']) storeCopy(folder, digit, 1);
  const lock = await takeProxyLock(join(folder, `${sha('b')}.lock`));
  const limits = { ...NO_LIMIT, limitBytes: 3000 };
  const open = (sha256: string): boolean => sha256 === sha('a');
  const error = await expectRefused(makeRoom(folder, 1001, limits, open), 'disk-full', /close some, or cut this clip/);
  expect(error.detail).toMatchObject({ cause: 'limit', used: 2000 });
  expect(left(folder)).toBe('ab');
  await lock?.release();
  expect(await makeRoom(folder, 2000, limits, open)).toBe(2000);
  expect(left(folder)).toBe('a');
});

it('keeps the disk from filling up', async () => {
  const folder = temporaryFolder();
  storeCopy(folder, 'a', 1);
  const error = await expectRefused(
    makeRoom(folder, 1, { ...NO_LIMIT, keepFreeBytes: 1e15 }, noneOpen),
    'disk-full',
    /Less than 1000000\.0 GB are free/,
  );
  expect(error.detail).toMatchObject({ cause: 'disk' });
  expect(left(folder)).toBe('');
});

it('gives room in pieces, so that two that write at once stay close to the limit', async () => {
  expect(await makeRoom(temporaryFolder(), 1, NO_LIMIT, noneOpen)).toBe(8 * 1024 * 1024);
});

it('deletes a copy that is not there as well', async () => {
  const folder = temporaryFolder();
  expect(await deleteCopy(folder, sha('a'))).toBe(true);
  expect(readdirSync(folder)).toEqual([]);
});
