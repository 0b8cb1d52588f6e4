import { readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { fileJobCount } from '../../core/video/process/file-job.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { keepSpan } from '../../core/video/span/keep-span.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { decodedCodes, ffmpegNow, makeCodedClip } from '../support/coded-clip.ts';
import { drawn } from '../support/drawn.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { expectKept, readSummed } from '../support/kept-span.ts';
import type { SummedClip } from '../support/kept-span.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { sized } from '../support/sized.ts';
import { onSmallDisk } from '../support/small-disk.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';
import { writeMatrix } from '../support/write-matrix.ts';

const ffmpeg = await findFfmpeg();
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];

afterAll(() => {
  expect([runningCount(), fileJobCount()]).toEqual([0, 0]);
});

const readClip = (path: string): Promise<SummedClip> => readSummed(ffmpeg, path);
const expectPart = (clip: SummedClip, from: number, to: number) => expectKept(ffmpeg, clip, from, to);

describe('where a part begins', () => {
  async function clipOf(file: string): Promise<SummedClip> {
    const path = join(temporaryFolder(), file);
    ILL_CLIPS.find((ill) => ill.file === file)?.make(ffmpeg, path, '');
    return readClip(path);
  }

  it('is the key picture before it, also of an open group', async () => {
    const clip = await clipOf('open-hevc.mp4');
    expect(clip.index.frames.flatMap(({ key }, frame) => (key ? [frame] : []))).toEqual([0, 12, 24, 36]);
    expect(await expectPart(clip, 26, 27)).toMatchObject({ first: 24, last: 28 });
    expect(await expectPart(clip, 24, 24)).toMatchObject({ first: 24, last: 24 });
    expect(await expectPart(clip, 23, 24)).toMatchObject({ first: 12, last: 24 });
  });

  it('is farther back where what the file calls a key picture does not stand by itself', async () => {
    expect(await expectPart(await clipOf('refresh.mp4'), 47, 47)).toMatchObject({ first: 0 });
  });

  it('lies in the right place of a clip of some minutes, of which only that part is read', async () => {
    const path = join(temporaryFolder(), 'long.mp4');
    const middle = sized(480, 1500);
    makeCodedClip(ffmpeg, 2 * middle, '30', [...H264, '-bf', '0', '-g', '60', '-preset', 'ultrafast', path]);
    const clip = await readClip(path);
    const { first, last, out } = await expectPart(clip, middle + 10, middle + 200);
    expect({ first, last }).toEqual({ first: middle, last: middle + 200 });
    expect(decodedCodes(ffmpeg, out).slice(0, 3)).toEqual([middle, middle + 1, middle + 2]);
  });
});

describe('what a camera tells', () => {
  const turns = [
    ['a quarter turn', [0, 1, -1, 0]],
    ['three quarters, mirrored', [0, 1, 1, 0]],
    ['mirrored', [-1, 0, 0, 1]],
    ['upside down', [-1, 0, 0, -1]],
  ] as const;
  it.each(drawn(turns))('is kept: %s', async (_, matrix) => {
    const path = join(temporaryFolder(), 'turned.mp4');
    makeCodedClip(ffmpeg, 60, '30', [...H264, path]);
    writeMatrix(path, matrix);
    const clip = await readClip(path);
    expect({ turn: clip.index.turn, mirrored: clip.index.mirrored }).not.toEqual({ turn: 0, mirrored: false });
    await expectPart(clip, 30, 40);
  });

  it('is kept: the capture rate and its other words', async () => {
    const path = join(temporaryFolder(), 'phone.MOV');
    const tags = ['com.android.capture.fps=240.0', 'com.apple.quicktime.model=A phone'].flatMap((tag) => [
      '-metadata',
      tag,
    ]);
    makeCodedClip(ffmpeg, 60, '30', [...H264, ...tags, '-movflags', 'use_metadata_tags', '-f', 'mov', path]);
    const clip = await readClip(path);
    expect(clip.index.captureRate?.framesPerSecond).toEqual({ num: 240, den: 1 });
    const { out } = await expectPart(clip, 30, 40);
    const words = ffmpegNow(ffmpeg, ['-i', out, '-f', 'ffmetadata', '-']).toString();
    expect(words).toContain('com.apple.quicktime.model=A phone');
    expect(words).toContain('major_brand=qt');
  });

  it('is kept: the sound that was there while the part was filmed', async () => {
    const path = join(temporaryFolder(), 'sound.mp4');
    const tone = ['-f', 'lavfi', '-i', 'sine=frequency=440:duration=10', '-map', '0:v', '-map', '1:a', '-c:a', 'aac'];
    makeCodedClip(ffmpeg, 300, '30', [...tone, ...H264, path]);
    const { first, last, sound, out } = await expectPart(await readClip(path), 150, 240);
    expect(sound).toBe(true);
    // 48,000 bytes of 16-bit samples at 24,000 a second are one second.
    const samples = ffmpegNow(ffmpeg, ['-i', out, '-map', '0:a', '-ar', '24000', '-ac', '1', '-f', 's16le', '-']);
    const seconds = (last - first + 1) / 30;
    expect(Math.abs(samples.length / 48_000 - seconds)).toBeLessThan(0.1);
  });

  it('is kept: sound that an MP4 does not take, in a QuickTime file', async () => {
    const path = join(temporaryFolder(), 'sound.mp4');
    const tone = ['-f', 'lavfi', '-i', 'sine=duration=2', '-map', '0:v', '-map', '1:a', '-c:a', 'pcm_s16le'];
    makeCodedClip(ffmpeg, 60, '30', [...tone, ...H264, '-f', 'mov', path]);
    expect((await expectPart(await readClip(path), 30, 40)).sound).toBe(true);
  });
});

describe('a part of a clip from outside, with edits at both ends or times of all kinds', () => {
  const files = ['timing/sample_edit_list.mp4', 'timing/bipbop.mp4', 'timing/cursed-vfr.mp4'];
  for (const file of drawn(files))
    itOn(file)(file, async () => {
      const clip = await readClip(outsideMedia(file));
      // Large pictures: the end, where edits are hardest, or all.
      const last = clip.index.frames.length - 1;
      for (const from of drawn([last, 0])) await expectPart(clip, from, last);
    });
});

describe('it is refused', () => {
  async function plain(): Promise<{ clip: SummedClip; folder: string; out: string }> {
    const folder = temporaryFolder();
    const path = join(folder, 'plain.mp4');
    makeCodedClip(ffmpeg, 48, '30', [...H264, path]);
    return { clip: await readClip(path), folder, out: join(folder, 'out.mp4') };
  }

  it('when the span is reversed or lies outside of the clip', async () => {
    const { clip, folder, out } = await plain();
    for (const [from, to] of [
      [20, 19],
      [-1, 5],
      [0, 48],
      [0.5, 5],
      [0, Number.NaN],
      [0, Infinity],
    ] as const)
      await expectRefused(keepSpan({ ffmpeg, ...clip, from, to, out }), 'bad-request', /0 to 47/);
    expect(readdirSync(folder)).toEqual(['plain.mp4']);
  });

  it('when something has that name, which stays as it is', async () => {
    const { clip, out } = await plain();
    writeFileSync(out, 'mine');
    await expectRefused(keepSpan({ ffmpeg, ...clip, from: 0, to: 5, out }), 'file-exists', /another name/);
    expect(readFileSync(out, 'utf8')).toBe('mine');
  });

  it('when its folder is not there', async () => {
    const { clip, folder } = await plain();
    const out = join(folder, 'nowhere', 'out.mp4');
    await expectRefused(keepSpan({ ffmpeg, ...clip, from: 0, to: 5, out }), 'not-writable');
  });

  it('when the index is that of another clip', async () => {
    const { clip, folder, out } = await plain();
    const path = join(folder, 'other.mp4');
    makeCodedClip(ffmpeg, 48, '25', [...H264, path]);
    await expectRefused(keepSpan({ ffmpeg, index: clip.index, path, from: 0, to: 5, out }), 'clip-changed');
  });

  it('when it would lose its turn, in the words of what would be lost', async () => {
    const { clip, out } = await plain();
    const index = { ...clip.index, turn: 90, captureRate: { framesPerSecond: { num: 240, den: 1 }, confirmed: false } };
    await expectRefused(
      keepSpan({ ffmpeg, path: clip.path, index: { ...index, turn: 90 }, from: 0, to: 5, out }),
      'format-refused',
      /change its turn and the capture rate that it tells\. Add the whole clip/,
    );
  });

  it('when it is cancelled, at whatever moment, and leaves nothing', async () => {
    const { clip, folder, out } = await plain();
    const order = { ffmpeg, ...clip, from: 20, to: 40, out };
    await expectRefused(keepSpan({ ...order, signal: AbortSignal.abort() }), 'cancelled');
    const stop = new AbortController();
    const working = keepSpan({ ...order, signal: stop.signal, onProgress: () => stop.abort() });
    await expectRefused(working, 'cancelled');
    for (const wait of [20, 60, 100, 150, 200]) {
      const [outcome] = await Promise.allSettled([keepSpan({ ...order, signal: AbortSignal.timeout(wait) })]);
      if (outcome.status === 'fulfilled') break;
      expect(outcome.reason).toMatchObject({ code: 'cancelled' });
      expect(readdirSync(folder)).toEqual(['plain.mp4']);
    }
    expect([runningCount(), fileJobCount()]).toEqual([0, 0]);
  });

  it('when the disk is full, and leaves nothing', () => {
    const folder = temporaryFolder();
    const disk = join(folder, 'disk');
    const path = join(folder, 'large.mp4');
    // Without loss, and larger than the pictures are: more than the 2 MB of the disk.
    makeCodedClip(ffmpeg, 40, '30', [
      ...['-vf', 'scale=768:512,noise=alls=60:allf=t', '-c:v', 'libx264', '-qp', '4', '-preset', 'ultrafast', path],
    ]);
    expect(statSync(path).size).toBeGreaterThan(3_000_000);
    const told: unknown = JSON.parse(
      onSmallDisk(join(import.meta.dirname, 'children', 'keep-on-full-disk.ts'), disk, path),
    );
    expect(told).toEqual({
      said: expect.stringMatching(/^disk-full: The disk is full: \/.*kept\.mp4 was not written\. Make room/),
      left: [],
    });
  });
});
