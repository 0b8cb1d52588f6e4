import { readFileSync, readdirSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { afterEach, expect, it, vi } from 'vitest';
import { readVerifiedIndex } from '../../core/jobs/verified-index.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { runBaybook } from '../support/run-baybook.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '12'];
/** Longer than a file must have been left alone for its table to be kept. */
const LONG_ENOUGH_MS = 3100;

afterEach(() => {
  vi.unstubAllEnvs();
});

async function coded(folder: string, count: number): Promise<string> {
  const path = join(folder, 'Robin Example.mp4');
  makeCodedClip(ffmpeg, count, '30', [...H264, path]);
  await delay(LONG_ENOUGH_MS);
  return path;
}

it('a clip is decoded once; then its table is known, until the file is another one', async () => {
  const folder = temporaryFolder();
  const cache = join(folder, 'cache');
  vi.stubEnv('BAYBOOK_CACHE', cache);
  const path = await coded(folder, 40);
  const truth = await readClipIndex(path, { ffmpeg, verify: true });
  expect(await readVerifiedIndex(path, { ffmpeg })).toEqual(truth);
  const [name] = readdirSync(join(cache, 'tables'));
  expect(readdirSync(join(cache, 'tables'))).toHaveLength(1);

  // Without an ffmpeg that runs nothing can be read, unless it is known.
  const broken = { ...ffmpeg, path: join(folder, 'no-such-program') };
  expect(await readVerifiedIndex(path, { ffmpeg: broken })).toEqual(truth);
  await expect(readVerifiedIndex(path, { ffmpeg: { ...broken, version: '99' } })).rejects.toThrow();

  const kept = readFileSync(join(cache, 'tables', name ?? ''), 'latin1');
  for (const word of ['Robin', 'Example', folder]) expect(`${String(name)} ${kept}`).not.toContain(word);

  // The same length and time, other pictures.
  const { atime, mtime, size } = statSync(path);
  makeCodedClip(ffmpeg, 30, '30', [...H264, path]);
  writeFileSync(path, Buffer.concat([readFileSync(path), Buffer.alloc(size)]).subarray(0, size));
  utimesSync(path, atime, mtime);
  expect(statSync(path)).toMatchObject({ size, mtimeMs: mtime.getTime() });
  await expect(readVerifiedIndex(path, { ffmpeg: broken })).rejects.toThrow();
  expect((await readVerifiedIndex(path, { ffmpeg })).frames).toHaveLength(30);
});

it('the command line gives the same still with an empty, a full, a spoilt and a forbidden cache', async () => {
  const folder = temporaryFolder();
  const path = await coded(folder, 40);
  const cache = join(folder, 'cache');
  const still = async (name: string): Promise<Buffer> => {
    const out = join(folder, `${name}.png`);
    expect(await runBaybook(['still', path, '--index', '33', '--out', out])).toMatchObject({ code: 0, said: '' });
    return readFileSync(out);
  };
  const off = await still('off');
  vi.stubEnv('BAYBOOK_CACHE', cache);
  // Two at once, both for the first time.
  expect(await Promise.all([still('first'), still('second')])).toEqual([off, off]);
  expect(await still('known')).toEqual(off);
  for (const name of readdirSync(join(cache, 'tables'))) writeFileSync(join(cache, 'tables', name), 'not a table');
  expect(await still('spoilt')).toEqual(off);
  vi.stubEnv('BAYBOOK_CACHE', path);
  expect(await still('forbidden')).toEqual(off);
  vi.stubEnv('BAYBOOK_CACHE', '');
  vi.stubEnv('XDG_CACHE_HOME', cache);
  vi.stubEnv('HOME', undefined);
  expect(await still('homeless')).toEqual(off);
});
