import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, describe, expect, it } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { findFfmpeg } from '../../core/video/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/read-clip-index.ts';
import { runningCount } from '../../core/video/run-ffmpeg.ts';
import { ScrubCopies } from '../../core/video/scrub-copies.ts';
import type { ScrubCopy } from '../../core/video/scrub-copies.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { scrubCodes } from '../support/scrub-pictures.ts';
import { onSmallDisk } from '../support/small-disk.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();
const sha = (digit: string): string => digit.repeat(64);
const NEVER = new AbortController().signal;
/** For a machine that is busy with other things. */
const PATIENCE = { timeout: 30_000 };
const numbers = (count: number): number[] => [...Array(count).keys()];

afterAll(() => {
  expect(runningCount()).toBe(0);
});

interface Clip {
  readonly folder: string;
  readonly path: string;
  readonly index: ClipIndex;
  readonly times: readonly number[];
}

async function plainClip(count: number, filter = 'null'): Promise<Clip> {
  const folder = temporaryFolder();
  const path = join(folder, 'plain.mp4');
  const encoder = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];
  makeCodedClip(ffmpeg, count, '240', ['-vf', filter, ...encoder, path]);
  const index = await readClipIndex(path, { ffmpeg });
  return { folder: join(folder, 'copies'), path, index, times: index.frames.map(({ pts }) => pts) };
}

/** Starts another process that builds the copy, with its lines as they come. */
function startBuilder({ folder, path }: Clip, pauseMs: number): { child: ChildProcess; lines: AsyncIterator<string> } {
  const script = join(import.meta.dirname, 'children', 'build-scrub.ts');
  const child = spawn(process.execPath, [script, folder, sha('a'), path, String(pauseMs)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return { child, lines: createInterface({ input: child.stdout })[Symbol.asyncIterator]() };
}

async function waitForCount(lines: AsyncIterator<string>, count: number): Promise<void> {
  for (;;) {
    const { done, value } = await lines.next();
    if (done === true) throw new Error(`ended before there were ${count} pictures`);
    if (Number(value) >= count) return;
  }
}

async function lastLine(lines: AsyncIterator<string>): Promise<unknown> {
  let last = '';
  for (;;) {
    const { done, value } = await lines.next();
    if (done === true) return JSON.parse(last);
    last = value;
  }
}

async function expectWhole(copy: ScrubCopy, { times }: Clip): Promise<void> {
  expect(copy.result).toEqual({ delivered: times, errors: false });
  expect(await scrubCodes(ffmpeg, copy, times)).toEqual(numbers(times.length));
}

describe('a process that is killed while it makes a copy', () => {
  it.each([1, 33, 70, 117, 120])('after %i pictures leaves one that is gone on with', async (count) => {
    const clip = await plainClip(120);
    const { child, lines } = startBuilder(clip, 3);
    await waitForCount(lines, count);
    child.kill('SIGKILL');
    await once(child, 'close');

    const copies = new ScrubCopies(clip.folder);
    const copy = await copies.open({ sha256: sha('a'), index: clip.index });
    // What is written in one go may be lost, no more.
    expect(copy.count).toBeGreaterThanOrEqual(count - 32);
    expect(await scrubCodes(ffmpeg, copy, clip.times.slice(0, copy.count))).toEqual(numbers(copy.count));
    const written: number[] = [];
    const run = { signal: NEVER, onFrame: (now: number) => written.push(now) };
    const before = copy.count;
    await copies.build(copy, { path: clip.path, ffmpeg }, run);
    if (before < 120) expect(written[0]).toBe(before + 1);
    await expectWhole(copy, clip);
    await copy.release();
    expect(readdirSync(clip.folder).sort()).toEqual([`${sha('a')}.frames`, `${sha('a')}.scrub`]);
  });

  it('again and again, gets there in the end', async () => {
    const clip = await plainClip(400);
    let attempts = 0;
    for (let goal = 60; goal < 400; goal += 60) {
      const { child, lines } = startBuilder(clip, 0);
      await waitForCount(lines, goal).catch(() => undefined);
      child.kill('SIGKILL');
      await once(child, 'close');
      attempts += 1;
    }
    expect(attempts).toBe(6);
    const copies = new ScrubCopies(clip.folder);
    const copy = await copies.open({ sha256: sha('a'), index: clip.index });
    expect(copy.count).toBeGreaterThan(300);
    await copies.build(copy, { path: clip.path, ffmpeg }, { signal: NEVER });
    await expectWhole(copy, clip);
    await copy.release();
  });
});

describe('two processes with one folder', () => {
  it('make a copy once and both have it', async () => {
    const clip = await plainClip(150);
    const builders = [startBuilder(clip, 2), startBuilder(clip, 2), startBuilder(clip, 2)];
    const results = await Promise.all(builders.map(({ lines }) => lastLine(lines)));
    expect(results).toEqual(Array(3).fill({ delivered: clip.times, errors: false }));
    const copy = await new ScrubCopies(clip.folder).open({ sha256: sha('a'), index: clip.index });
    await expectWhole(copy, clip);
    await copy.release();
  });

  it('read what the other one makes, and take over when it is gone', async () => {
    const clip = await plainClip(200);
    const { child, lines } = startBuilder(clip, 20);
    await waitForCount(lines, 40);
    const copies = new ScrubCopies(clip.folder);
    const copy = await copies.open({ sha256: sha('a'), index: clip.index });
    expect(copy.count).toBeGreaterThanOrEqual(32);
    const written: number[] = [];
    const run = { signal: NEVER, onFrame: (now: number) => written.push(now) };
    const building = copies.build(copy, { path: clip.path, ffmpeg }, run);
    await waitForCount(lines, 110);
    await expect.poll(() => copy.count, PATIENCE).toBeGreaterThanOrEqual(96);
    expect(copy.complete).toBe(false);
    expect(await scrubCodes(ffmpeg, copy, clip.times.slice(0, 96))).toEqual(numbers(96));
    // Neither deletes what the other one is writing.
    await copies.remove(sha('a'));
    expect(existsSync(join(clip.folder, `${sha('a')}.frames`))).toBe(true);
    child.kill('SIGKILL');
    await once(child, 'close');
    await building;
    expect(written.at(-1)).toBe(200);
    expect(written).toEqual(written.toSorted((a, b) => a - b));
    await expectWhole(copy, clip);
    await copy.release();
  });

  it('leave a copy to the one that took it over', async () => {
    const clip = await plainClip(150);
    const { lines } = startBuilder(clip, 15);
    await waitForCount(lines, 40);
    // As after a long sleep of the machine: no sign of life of the other one for minutes, yet it goes on.
    const long = new Date(Date.now() - 10 * 60_000);
    utimesSync(join(clip.folder, `${sha('a')}.lock`), long, long);
    const copies = new ScrubCopies(clip.folder);
    const copy = await copies.open({ sha256: sha('a'), index: clip.index });
    await copies.build(copy, { path: clip.path, ffmpeg }, { signal: NEVER });
    await expectWhole(copy, clip);
    expect(await lastLine(lines)).toEqual({ delivered: clip.times, errors: false });
    await copy.release();
    const again = await copies.open({ sha256: sha('a'), index: clip.index });
    await expectWhole(again, clip);
    await again.release();
  });
});

describe('the folder of the copies', () => {
  it('stays within its limit: those longest unused go first, those that are open stay', async () => {
    const clip = await plainClip(60);
    const source = { path: clip.path, ffmpeg };
    const measure = new ScrubCopies(join(clip.folder, 'once'));
    const only = await measure.open({ sha256: sha('a'), index: clip.index });
    await measure.build(only, source, { signal: NEVER });
    await only.release();
    const bytes = await measure.usedBytes();

    // Room for three and a half.
    const folder = join(clip.folder, 'many');
    const copies = new ScrubCopies(folder, { limitBytes: 3.5 * bytes });
    const open = (digit: string): Promise<ScrubCopy> => copies.open({ sha256: sha(digit), index: clip.index });
    const stored = (): string =>
      readdirSync(folder)
        .filter((name) => name.endsWith('.frames'))
        .map((name) => name.slice(0, 1))
        .sort()
        .join('');
    const make = async (digit: string): Promise<void> => {
      const copy = await open(digit);
      await copies.build(copy, source, { signal: NEVER });
      await expectWhole(copy, clip);
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
    await expectWhole(held, clip);
    await held.release();

    await copies.remove(sha('3'));
    expect(stored()).toBe('15');
  });

  it('keeps the beginning of a copy that is larger than all of it may be', async () => {
    const clip = await plainClip(100);
    const copies = new ScrubCopies(clip.folder, { limitBytes: 200_000 });
    const copy = await copies.open({ sha256: sha('a'), index: clip.index });
    for (let attempt = 0; attempt < 2; attempt += 1) {
      const work = copies.build(copy, { path: clip.path, ffmpeg }, { signal: NEVER });
      const error = await expectRefused(work, 'disk-full', /need more than the 0\.0 GB set aside/);
      expect(error.detail).toMatchObject({ cause: 'limit' });
      expect(copy.count).toBeGreaterThan(0);
      expect(await copies.usedBytes()).toBeLessThanOrEqual(200_000);
      expect(await scrubCodes(ffmpeg, copy, clip.times.slice(0, copy.count))).toEqual(numbers(copy.count));
    }
    await copy.release();
  });

  it('that is no folder, or on a full disk, is told; what is there stays of use, and there is more with more room', async () => {
    const { path, index } = await plainClip(150, 'scale=384:256,noise=alls=20:allf=t');
    const file = join(temporaryFolder(), 'file');
    writeFileSync(file, 'x');
    for (const [folder, sentence] of [
      [file, /is a file where a folder is needed/],
      [join(file, 'copies'), /Choose a folder you may write to/],
    ] as const) {
      const copies = new ScrubCopies(folder);
      const copy = await copies.open({ sha256: sha('a'), index });
      await expectRefused(copies.build(copy, { path, ffmpeg }, { signal: NEVER }), 'not-writable', sentence);
      expect([copy.count, await copies.usedBytes()]).toEqual([0, 0]);
      await copy.release();
    }

    const disk = join(temporaryFolder(), 'disk');
    const told: unknown = JSON.parse(
      onSmallDisk(join(import.meta.dirname, 'children', 'fill-scrub-disk.ts'), disk, path),
    );
    const full = {
      said: expect.stringMatching(/^disk-full \(met\): The disk is full: .*\.scrub was not written\. Make/),
    };
    expect(told).toEqual({
      kept: { said: expect.stringMatching(/^disk-full \(disk\): Less than 2\.0 GB are free/), count: 0, readable: 0 },
      // Each time there is a little more room, and none is lost of what was made before.
      steps: [
        { ...full, count: 0, readable: 0 },
        { ...full, count: 32, readable: 32 },
        { ...full, count: 64, readable: 64 },
        { said: 'done', count: 150, readable: 150 },
      ],
      left: [`${sha('d')}.frames`, `${sha('d')}.scrub`],
    });
  });

  it('forgets a copy that is removed, also one that is open or being made', async () => {
    const clip = await plainClip(100);
    const copies = new ScrubCopies(clip.folder);
    const copy = await copies.open({ sha256: sha('a'), index: clip.index });
    await copies.remove(sha('a'));
    const building = copies.build(
      copy,
      { path: clip.path, ffmpeg },
      { signal: NEVER, giveWay: () => new Promise(setImmediate) },
    );
    const refused = expectRefused(building, 'cancelled');
    await expect.poll(() => copy.count, PATIENCE).toBeGreaterThan(10);
    await copies.remove(sha('a'));
    await refused;
    expect([copy.count, copy.complete, readdirSync(clip.folder)]).toEqual([0, false, []]);
    await copies.build(copy, { path: clip.path, ffmpeg }, { signal: NEVER });
    await expectWhole(copy, clip);
    await copies.remove(sha('a'));
    expect([copy.count, copy.complete, readdirSync(clip.folder)]).toEqual([0, false, []]);
    expect(await copy.read(clip.times[0] ?? -1)).toBe(null);
    await copy.release();
    await expect(copies.open({ sha256: '../../x', index: clip.index })).rejects.toThrow('not a SHA-256');
  });
});
