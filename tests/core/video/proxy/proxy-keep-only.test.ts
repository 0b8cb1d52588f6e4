import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ProxyStore } from '../../../../core/video/proxy/proxy-store.ts';
import { takeProxyLock } from '../../../../core/video/proxy/proxy-lock.ts';
import { temporaryFolder } from '../../../support/temporary-folder.ts';
import { sampleIndex } from '../../book/sample.ts';

const sha = (digit: string): string => digit.repeat(64);

function storeCopies(folder: string, digits: string): void {
  for (const digit of digits)
    for (const kind of ['scrub', 'frames']) writeFileSync(join(folder, `${sha(digit)}.${kind}`), 'x');
}

const left = (folder: string): string =>
  [...new Set(readdirSync(folder).map((name) => name.slice(0, 1)))].sort().join('');

it('copies of clips that are none any more go, whole or not, and nothing else does', async () => {
  const folder = temporaryFolder();
  storeCopies(folder, 'abc');
  writeFileSync(join(folder, `${sha('d')}.scrub`), 'without its list');
  writeFileSync(join(folder, 'holiday.scrub'), 'x');
  await new ProxyStore(folder).keepOnly(new Set([sha('b'), sha('e')]));
  expect(left(folder)).toBe('bh');
  await new ProxyStore(join(folder, 'nowhere')).keepOnly(new Set());
});

it('a copy that is open goes as well, and can be made anew', async () => {
  const folder = temporaryFolder();
  storeCopies(folder, 'a');
  const copies = new ProxyStore(folder);
  const copy = await copies.open({ sha256: sha('a'), index: sampleIndex() });
  await copies.keepOnly(new Set());
  expect(left(folder)).toBe('');
  expect(await copy.read(0)).toBeNull();
  await copy.release();
});

it('a copy that is opened meanwhile stays: it is of a clip that was added since', async () => {
  const folder = temporaryFolder();
  storeCopies(folder, 'ab');
  const copies = new ProxyStore(folder);
  const deleting = copies.keepOnly(new Set());
  const copy = await copies.open({ sha256: sha('b'), index: sampleIndex() });
  await deleting;
  expect(left(folder)).toBe('b');
  await copy.release();
});

it('a copy that another process is making is left to the next time', async () => {
  const folder = temporaryFolder();
  storeCopies(folder, 'a');
  const lock = await takeProxyLock(join(folder, `${sha('a')}.lock`));
  await new ProxyStore(folder).keepOnly(new Set());
  expect(existsSync(join(folder, `${sha('a')}.frames`))).toBe(true);
  await lock?.release();
  await new ProxyStore(folder).keepOnly(new Set());
  expect(left(folder)).toBe('');
});
