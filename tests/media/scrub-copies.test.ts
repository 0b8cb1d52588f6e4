import { chmodSync, copyFileSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { afterAll, describe, expect, it } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { findFfmpeg } from '../../core/video/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/read-clip-index.ts';
import { runningCount } from '../../core/video/run-ffmpeg.ts';
import { ScrubCopies } from '../../core/video/scrub-copies.ts';
import type { BuildRun, PassResult, ScrubCopy, ScrubSource } from '../../core/video/scrub-copies.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { scrubCodes } from '../support/scrub-pictures.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';
import { writeMatrix } from '../support/write-matrix.ts';

const ffmpeg = await findFfmpeg();
const sha256 = 'c'.repeat(64);
const NEVER = new AbortController().signal;
/** For a machine that is busy with other things. */
const PATIENCE_MS = 30_000;
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];
/** The only clips at which a decoder complains; the second begins with pictures that refer to some that were cut off. */
const COMPLAINED_ABOUT = ['cut-short.mp4', 'cut-open.mp4'];

afterAll(() => {
  expect(runningCount()).toBe(0);
});

const timesOf = (index: ClipIndex): number[] => index.frames.map(({ pts }) => pts);

/** Opens a copy, builds it, and hands it over; it is let go when the build is refused. */
async function build(
  folder: string,
  source: Partial<ScrubSource> & { readonly path: string },
  index: ClipIndex,
  run: Partial<BuildRun> = {},
): Promise<{ readonly copy: ScrubCopy; readonly result: PassResult }> {
  const copies = new ScrubCopies(folder);
  const copy = await copies.open({ sha256, index });
  try {
    return { copy, result: await copies.build(copy, { ffmpeg, ...source }, { signal: NEVER, ...run }) };
  } catch (error) {
    await copy.release();
    throw error;
  }
}

/** Cancels a build when so many pictures are there, and checks that they stay. */
async function buildUntil(folder: string, path: string, index: ClipIndex, stopAt: number): Promise<void> {
  const stop = new AbortController();
  const onFrame = (written: number): void => {
    if (written >= stopAt) stop.abort();
  };
  await expectRefused(build(folder, { path }, index, { signal: stop.signal, onFrame }), 'cancelled');
  const copy = await new ScrubCopies(folder).open({ sha256, index });
  expect([copy.count, copy.complete, copy.result]).toEqual([stopAt, false, null]);
  await copy.release();
}

/** A plain clip of coded pictures, its table and its pictures' numbers. */
async function plainClip(count: number): Promise<{ folder: string; path: string; index: ClipIndex; times: number[] }> {
  const folder = temporaryFolder();
  const path = join(folder, 'plain.mp4');
  makeCodedClip(ffmpeg, count, '30', [...H264, path]);
  const index = await readClipIndex(path, { ffmpeg });
  return { folder, path, index, times: timesOf(index) };
}

const numbers = (count: number): number[] => [...Array(count).keys()];

describe.each(ILL_CLIPS)('the scrub copy of a clip: $name', ({ file, make }) => {
  it('holds every frame that a plain decode shows, each under its own time, also when it was made in pieces', async () => {
    const folder = temporaryFolder();
    const path = join(folder, file);
    make(ffmpeg, path, join(folder, `scratch-${file}`));
    const truth = decodedCodes(ffmpeg, path);
    const index = await readClipIndex(path, { ffmpeg, verify: true });
    const times = timesOf(index);
    const expected: PassResult = { delivered: times, errors: COMPLAINED_ABOUT.includes(file) };

    const at = join(folder, 'whole');
    const { copy, result } = await build(at, { path }, index);
    expect(result).toEqual(expected);
    expect([copy.complete, copy.count, copy.result]).toEqual([true, times.length, expected]);
    expect(await scrubCodes(ffmpeg, copy, times)).toEqual(truth);
    await copy.release();

    const last = times.length;
    for (const [place, stops] of [
      [1, last],
      [Math.ceil(last / 3), Math.ceil((2 * last) / 3) + 1],
    ].entries()) {
      const pieces = join(folder, `pieces-${place}`);
      for (const stopAt of new Set(stops)) if (stopAt <= last) await buildUntil(pieces, path, index, stopAt);
      const again = await build(pieces, { path }, index);
      expect(again.result).toEqual(expected);
      expect(await scrubCodes(ffmpeg, again.copy, times)).toEqual(truth);
      await again.copy.release();
    }
  });
});

describe('the scrub copy of a clip that is', () => {
  it.each([
    ['turned a quarter', 'transpose=cclock', [0, 1, -1, 0]],
    ['turned half', 'hflip,vflip', [-1, 0, 0, -1]],
    ['mirrored', 'hflip', [-1, 0, 0, 1]],
    ['mirrored over a diagonal', 'transpose=cclock_flip', [0, 1, 1, 0]],
  ] as const)('%s stands upright', async (_, stored, matrix) => {
    const path = join(temporaryFolder(), 'turned.mp4');
    makeCodedClip(ffmpeg, 3, '30', ['-vf', stored, '-c:v', 'libx264', '-pix_fmt', 'yuv420p', path]);
    writeMatrix(path, matrix);
    const index = await readClipIndex(path, { ffmpeg });
    const { copy } = await build(temporaryFolder(), { path }, index);
    expect([copy.width, copy.height]).toEqual([192, 128]);
    expect(await scrubCodes(ffmpeg, copy, timesOf(index))).toEqual([0, 1, 2]);
    await copy.release();
  });

  it.each(['arib-std-b67', 'smpte2084'])('of high dynamic range (%s) is of standard range', async (curve) => {
    const path = join(temporaryFolder(), 'hdr.mp4');
    const colour = `colorprim=bt2020:transfer=${curve}:colormatrix=bt2020nc:log-level=error`;
    makeCodedClip(ffmpeg, 10, '30', ['-c:v', 'libx265', '-pix_fmt', 'yuv420p10le', '-x265-params', colour, path]);
    const index = await readClipIndex(path, { ffmpeg });
    expect(index.dynamicRange).not.toBe('sdr');
    const { copy, result } = await build(temporaryFolder(), { path }, index);
    expect(result).toEqual({ delivered: timesOf(index), errors: false });
    expect(await scrubCodes(ffmpeg, copy, timesOf(index))).toEqual(numbers(10));
    await copy.release();
  });

  it('large is made small', async () => {
    const path = join(temporaryFolder(), 'large.mp4');
    makeCodedClip(ffmpeg, 2, '30', ['-vf', 'scale=1080:1920', ...H264, path]);
    const index = await readClipIndex(path, { ffmpeg });
    const { copy } = await build(temporaryFolder(), { path }, index);
    expect([copy.width, copy.height]).toEqual([720, 1280]);
    expect(await scrubCodes(ffmpeg, copy, timesOf(index))).toEqual([0, 1]);
    await copy.release();
  });
});

describe('a scrub copy that is being made', () => {
  it('is read as it grows, by all who have it open, and each picture stays the same', async () => {
    const { folder, path, index, times } = await plainClip(150);
    const copies = new ScrubCopies(folder);
    const [copy, other] = [await copies.open({ sha256, index }), await copies.open({ sha256, index })];
    const early: (Promise<Uint8Array | null> | undefined)[] = [];
    const counts: number[] = [];
    const onFrame = (written: number, total: number): void => {
      counts.push(written);
      expect([total, copy.count, other.count, copy.complete]).toEqual([150, written, written, false]);
      const [at, ahead] = [times[written - 1] ?? -1, times[written] ?? -1];
      expect([other.has(at), other.has(ahead)]).toEqual([true, false]);
      early.push(other.read(at));
    };
    const result = await copies.build(copy, { path, ffmpeg }, { signal: NEVER, onFrame });
    expect(counts).toEqual(numbers(151).slice(1));
    expect(other.result).toEqual(result);
    for (const [place, pts] of times.entries()) expect(await early[place]).toEqual(await copy.read(pts));
    expect(await scrubCodes(ffmpeg, other, times)).toEqual(numbers(150));
    expect(await copies.usedBytes()).toBeGreaterThan(copy.bytes);
    await copy.release();
    expect([copy.has(times[0] ?? -1), await copy.read(times[0] ?? -1)]).toEqual([false, null]);
    expect(await other.read(times[0] ?? -1)).not.toBe(null);
    await other.release();
    await other.release();
  });

  it('is made once, however often that is asked for', async () => {
    const { folder, path, index, times } = await plainClip(60);
    const copies = new ScrubCopies(folder);
    const copy = await copies.open({ sha256, index });
    let frames = 0;
    const run = { signal: NEVER, onFrame: () => (frames += 1) };
    const results = await Promise.all([1, 2, 3].map(() => copies.build(copy, { path, ffmpeg }, run)));
    expect(results).toEqual(Array(3).fill({ delivered: times, errors: false }));
    expect(frames).toBe(60);
    expect(await copies.build(copy, { path: 'no longer needed', ffmpeg }, run)).toEqual(results[0]);
    await copy.release();
    await expect(copies.build(copy, { path, ffmpeg }, run)).rejects.toThrow('only a copy that is open here');
  });

  it('stands still for as long as it is told to give way', async () => {
    const { folder, path, index, times } = await plainClip(300);
    let [open, written] = [(): void => undefined, 0];
    let gate: Promise<void> = Promise.resolve();
    const giveWay = async (): Promise<void> => {
      await delay(2);
      await gate;
    };
    const run = { giveWay, onFrame: (count: number) => (written = count) };
    const building = build(folder, { path }, index, run);
    await expect.poll(() => written, { timeout: PATIENCE_MS }).toBeGreaterThan(10);
    gate = new Promise((resolve) => (open = resolve));
    await delay(50);
    const before = written;
    await delay(300);
    expect(written).toBe(before);
    expect(before).toBeLessThan(300);
    gate = Promise.resolve();
    open();
    const { copy, result } = await building;
    expect(result.delivered).toEqual(times);
    await copy.release();
  });

  it('is given up at once when cancelled, also while it gives way and before it began', async () => {
    const { folder, path, index } = await plainClip(10);
    const stop = new AbortController();
    const giveWay = (): Promise<void> => new Promise(() => undefined);
    const building = expectRefused(build(folder, { path }, index, { signal: stop.signal, giveWay }), 'cancelled');
    await delay(200);
    stop.abort();
    await building;
    expect(runningCount()).toBe(0);
    await expectRefused(build(folder, { path }, index, { signal: stop.signal }), 'cancelled');
    const { copy, result } = await build(folder, { path }, index);
    expect(result.delivered).toHaveLength(10);
    await copy.release();
  });

  it('goes on when it is let go', async () => {
    const { folder, path, index } = await plainClip(60);
    const copies = new ScrubCopies(folder);
    const copy = await copies.open({ sha256, index });
    const building = copies.build(copy, { path, ffmpeg }, { signal: NEVER });
    await copy.release();
    expect((await building).delivered).toHaveLength(60);
    const again = await copies.open({ sha256, index });
    expect(again.complete).toBe(true);
    await again.release();
  });

  it('enters the clip at a key picture when it goes on, and begins at the start where the decoder complains of that', async () => {
    const folder = temporaryFolder();
    // Writes down how each pass begins, then is ffmpeg.
    const [log, wrapper] = [join(folder, 'log'), join(folder, 'ffmpeg')];
    const say = `case "$*" in *" -ss "*) echo entered;; *pipe:1*) echo start;; esac >> '${log}'`;
    writeFileSync(wrapper, `#!/bin/sh\n${say}\nexec '${ffmpeg.path}' "$@"\n`);
    chmodSync(wrapper, 0o755);
    for (const [file, passes] of [
      ['constant.mp4', ['entered']],
      ['open-hevc.mp4', ['entered']],
      ['open-h264.mp4', ['entered', 'start']],
      ['times.avi', ['start']],
    ] as const) {
      const path = join(folder, file);
      ILL_CLIPS.find((ill) => ill.file === file)?.make(ffmpeg, path, join(folder, 'scratch'));
      const index = await readClipIndex(path, { ffmpeg });
      const at = join(folder, `copies-${file}`);
      await buildUntil(at, path, index, 40);
      writeFileSync(log, '');
      const { copy, result } = await build(at, { path, ffmpeg: { ...ffmpeg, path: wrapper } }, index);
      const began = readFileSync(log, 'utf8').trim().split('\n');
      expect({ file, began, result }).toEqual({
        ...{ file, began: passes },
        result: { delivered: timesOf(index), errors: false },
      });
      await copy.release();
    }
  });
});

describe('a clip with damage', () => {
  it('gives what can be decoded, the same whether in one go or in pieces, and says that there were errors', async () => {
    const { folder, path, times } = await plainClip(120);
    const bytes = readFileSync(path);
    // Within the pictures; the tables stand behind them.
    for (let at = Math.floor(bytes.length * 0.4); at < bytes.length * 0.45; at += 3) bytes.writeUInt8(0xa5, at);
    writeFileSync(path, bytes);
    const index = await readClipIndex(path, { ffmpeg, verify: true });
    const whole = await build(join(folder, 'whole'), { path }, index);
    expect(whole.result).toEqual({ delivered: timesOf(index), errors: true });
    expect(times).toEqual(expect.arrayContaining(timesOf(index)));
    await whole.copy.release();
    for (const stopAt of [5, 30, 50, 70, 100]) {
      const pieces = join(folder, `pieces-${stopAt}`);
      await buildUntil(pieces, path, index, stopAt);
      const { copy, result } = await build(pieces, { path }, index);
      expect(result).toEqual(whole.result);
      await copy.release();
    }
  });

  it('of which nothing can be decoded is refused, as is anything that is no clip', async () => {
    const { folder, path, index } = await plainClip(10);
    const bytes = readFileSync(path);
    bytes.fill(0, bytes.indexOf('mdat') + 4, bytes.indexOf('moov') - 4);
    const blank = join(folder, 'blank.mp4');
    writeFileSync(blank, bytes);
    await expectRefused(build(folder, { path: blank }, index), 'clip-damaged', /No frame of .* can be decoded/);
    await expectRefused(build(folder, { path: join(folder, 'gone.mp4') }, index), 'file-not-found');
    writeFileSync(blank, '');
    await expectRefused(build(folder, { path: blank }, index), 'file-empty');
    const other = { ...index, timebase: { num: 1, den: 7 } };
    await expectRefused(build(join(folder, 'other'), { path }, other), 'clip-changed');
  });

  it('that changes while it is read is not taken for a damaged one', async () => {
    const { folder, path, index } = await plainClip(400);
    const original = join(folder, 'original.mp4');
    copyFileSync(path, original);
    const onFrame = (written: number): void => {
      if (written === 20) truncateSync(path, Math.floor(statSync(path).size / 3));
    };
    await expectRefused(
      build(folder, { path }, index, { onFrame, giveWay: () => delay(2) }),
      'clip-changed',
      /is not the clip it was/,
    );
    copyFileSync(original, path);
    const { copy, result } = await build(folder, { path }, index);
    expect(result).toEqual({ delivered: timesOf(index), errors: false });
    expect(await scrubCodes(ffmpeg, copy, timesOf(index))).toEqual(numbers(400));
    await copy.release();
  });
});

describe('an ffmpeg that', () => {
  it('is killed leaves what it made, and the clip is not called damaged', async () => {
    const { folder, path, index, times } = await plainClip(200);
    const wrapper = join(folder, 'ffmpeg');
    // Only passes write pictures to the pipe.
    const half = `'${ffmpeg.path}' "$@" | head -c 150000; kill -9 $$`;
    writeFileSync(wrapper, `#!/bin/sh\ncase "$*" in *tee*) ${half};; *) exec '${ffmpeg.path}' "$@";; esac\n`);
    chmodSync(wrapper, 0o755);
    const source = { path, ffmpeg: { ...ffmpeg, path: wrapper } };
    await expectRefused(build(folder, source, index), 'ffmpeg-failed', /stopped in the middle/);
    const copy = await new ScrubCopies(folder).open({ sha256, index });
    expect(copy.count).toBeGreaterThan(0);
    expect(await scrubCodes(ffmpeg, copy, times.slice(0, copy.count))).toEqual(numbers(copy.count));
    await copy.release();
    const again = await build(folder, { path }, index);
    expect(again.result).toEqual({ delivered: times, errors: false });
    await again.copy.release();
  });

  it('cannot make the pictures, or is not there, is told', async () => {
    const { folder, path, index } = await plainClip(60);
    await buildUntil(folder, path, index, 40);
    const wrapper = join(folder, 'ffmpeg');
    const script = `case "$*" in *tee*) echo "Unknown encoder 'libx264'" >&2; exit 1;; esac\nexec '${ffmpeg.path}' "$@"`;
    writeFileSync(wrapper, `#!/bin/sh\n${script}\n`);
    chmodSync(wrapper, 0o755);
    const source = { path, ffmpeg: { ...ffmpeg, path: wrapper } };
    await expectRefused(build(folder, source, index), 'ffmpeg-failed', /cannot be used/);
    rmSync(wrapper);
    await expectRefused(build(folder, source, index), 'ffmpeg-missing');
    const { copy, result } = await build(folder, { path }, index);
    expect(result).toEqual({ delivered: timesOf(index), errors: false });
    await copy.release();
  });
});
