import { readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import type { ClipProxy } from '../../core/video/proxy/proxy-store.ts';
import { NEVER, expectWhole, numbers, plainClip } from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { onSmallDisk } from '../support/small-disk.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();
const sha = (digit: string): string => digit.repeat(64);
/** For a machine that is busy with other things. */
const PATIENCE = { timeout: 30_000 };

afterAll(() => {
  expect(runningCount()).toBe(0);
});

describe('the folder of the copies', () => {
  it('stays within its limit: those longest unused go first, those that are open stay', async () => {
    const clip = await plainClip(ffmpeg, 60);
    const source = { path: clip.path, ffmpeg };
    const measure = new ProxyStore(join(clip.folder, 'once'));
    const only = await measure.open({ sha256: sha('a'), index: clip.index });
    await measure.build(only, source, { signal: NEVER });
    await only.release();
    const bytes = await measure.usedBytes();

    // Room for three and a half.
    const folder = join(clip.folder, 'many');
    const copies = new ProxyStore(folder, { limitBytes: 3.5 * bytes });
    const open = (digit: string): Promise<ClipProxy> => copies.open({ sha256: sha(digit), index: clip.index });
    const stored = (): string =>
      readdirSync(folder)
        .filter((name) => name.endsWith('.frames'))
        .map((name) => name.slice(0, 1))
        .sort()
        .join('');
    const make = async (digit: string): Promise<void> => {
      const copy = await open(digit);
      await copies.build(copy, source, { signal: NEVER });
      await expectWhole(ffmpeg, copy, clip.times);
      await copy.release();
    };
    const age = (digit: string, minutes: number): void => {
      const then = new Date(Date.now() - minutes * 60_000);
      for (const kind of ['scrub', 'frames']) utimesSync(join(folder, `${sha(digit)}.${kind}`), then, then);
    };
    for (const [digit, minutes] of [
      ['1', 30],
      ['2', 20],
      ['3', 10],
    ] as const) {
      await make(digit);
      age(digit, minutes);
    }
    expect(stored()).toBe('123');
    // Opened again, the oldest is no longer the one longest unused.
    await (await open('1')).release();
    await make('4');
    expect(stored()).toBe('134');
    age('4', 1);
    const held = await open('3');
    age('3', 60);
    await make('5');
    expect(stored()).toBe('135');
    expect(await copies.usedBytes()).toBeLessThanOrEqual(3.5 * bytes);
    await expectWhole(ffmpeg, held, clip.times);
    await held.release();

    await copies.remove(sha('3'));
    expect(stored()).toBe('15');
  });

  it('keeps the beginning of a copy that is larger than all of it may be', async () => {
    const clip = await plainClip(ffmpeg, 100);
    const copies = new ProxyStore(clip.folder, { limitBytes: 200_000 });
    const copy = await copies.open({ sha256: sha('a'), index: clip.index });
    for (let attempt = 0; attempt < 2; attempt += 1) {
      const work = copies.build(copy, { path: clip.path, ffmpeg }, { signal: NEVER });
      const error = await expectRefused(work, 'disk-full', /need more than the 0\.0 GB set aside/);
      expect(error.detail).toMatchObject({ cause: 'limit' });
      expect(copy.count).toBeGreaterThan(0);
      expect(await copies.usedBytes()).toBeLessThanOrEqual(200_000);
      expect(await proxyCodes(ffmpeg, copy, clip.times.slice(0, copy.count))).toEqual(numbers(copy.count));
    }
    await copy.release();
  });

  it('that is no folder, or on a full disk, is told; what is there stays of use, and there is more with more room', async () => {
    const { path, index } = await plainClip(ffmpeg, 120, 'scale=288:192,noise=alls=23:allf=t');
    const file = join(temporaryFolder(), 'file');
    writeFileSync(file, 'x');
    for (const [folder, sentence] of [
      [file, /is a file where a folder is needed/],
      [join(file, 'copies'), /is a file, not a folder\. Choose another folder/],
    ] as const) {
      const copies = new ProxyStore(folder);
      const copy = await copies.open({ sha256: sha('a'), index });
      await expectRefused(copies.build(copy, { path, ffmpeg }, { signal: NEVER }), 'not-writable', sentence);
      expect([copy.count, await copies.usedBytes()]).toEqual([0, 0]);
      await copy.release();
    }

    const disk = join(temporaryFolder(), 'disk');
    const told: unknown = JSON.parse(
      onSmallDisk(join(import.meta.dirname, 'children', 'fill-proxy-disk.ts'), disk, path),
    );
    const full = {
      said: expect.stringMatching(/^disk-full \(met\): The disk is full: .*\.scrub was not written\. Make/),
    };
    expect(told).toEqual({
      kept: { said: expect.stringMatching(/^disk-full \(disk\): Less than 2\.0 GB are free/), count: 0, lost: 0 },
      // Each time there is a little more room, and nothing is lost of what was made before.
      steps: [
        { ...full, lost: 0 },
        { ...full, lost: 0 },
        { ...full, lost: 0 },
        { said: 'done', lost: 0 },
      ],
      rising: true,
      last: 120,
      left: [`${sha('d')}.frames`, `${sha('d')}.scrub`],
    });
  });

  it('forgets a copy that is removed, also one that is open or being made', async () => {
    const clip = await plainClip(ffmpeg, 100);
    const copies = new ProxyStore(clip.folder);
    const copy = await copies.open({ sha256: sha('a'), index: clip.index });
    await copies.remove(sha('a'));
    const building = copies.build(
      copy,
      { path: clip.path, ffmpeg },
      // Held up once it has some pictures: a quick machine would make all of them between two looks.
      { signal: NEVER, giveWay: () => new Promise((done) => setTimeout(done, copy.count > 10 ? 500 : 0)) },
    );
    const refused = expectRefused(building, 'cancelled');
    await expect.poll(() => copy.count, PATIENCE).toBeGreaterThan(10);
    await copies.remove(sha('a'));
    await refused;
    expect([copy.count, copy.complete, readdirSync(clip.folder)]).toEqual([0, false, []]);
    await copies.build(copy, { path: clip.path, ffmpeg }, { signal: NEVER });
    await expectWhole(ffmpeg, copy, clip.times);
    await copies.remove(sha('a'));
    expect([copy.count, copy.complete, readdirSync(clip.folder)]).toEqual([0, false, []]);
    expect(await copy.read(clip.times[0] ?? -1)).toBe(null);
    await copy.release();
    await expect(copies.open({ sha256: '../../x', index: clip.index })).rejects.toThrow('not a SHA-256');
  });
});
