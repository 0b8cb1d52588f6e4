import { open, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { canBeOneRun, isOneRunCheaper, readKeyPictures } from '../../core/video/decode/key-pictures.ts';
import { decodeStill } from '../../core/video/decode/read-still.ts';
import type { WindowPicture } from '../../core/video/decode/frame-window.ts';
import { readClipSource } from '../../core/video/index/clip-source.ts';
import { readFewPictures } from '../../core/video/index/few-pictures.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runFfmpeg, runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { STRIP_SIDE, proxyLayout, proxySize } from '../../core/video/proxy/proxy-size.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { seeded } from '../support/seeded.ts';
import { sized } from '../support/sized.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { codesOfAll, pixelsOfAll } from '../support/window-pixels.ts';

const ffmpeg = await findFfmpeg();

async function keysOf(path: string) {
  const source = await readClipSource(path, { ffmpeg });
  const index = await readClipIndex(path, { ffmpeg });
  const keys = [...index.frames.keys()].filter((frame) => index.frames[frame]?.key === true);
  return { source, index, keys };
}

/** All key pictures of a clip in one run, by their frames. */
async function inOneRun({ source, index, keys }: Awaited<ReturnType<typeof keysOf>>) {
  const layout = proxyLayout(proxySize(index, STRIP_SIDE));
  const pictures: { readonly frame: number; readonly picture: WindowPicture }[] = [];
  for await (const { frame, data } of readKeyPictures(source, index, keys, { ffmpeg }))
    pictures.push({ frame, picture: { layout, data } });
  return pictures;
}

/** A checksum of each coded picture, in the order of times, as ffmpeg reads the file. */
async function packetSums(path: string): Promise<readonly { readonly time: number; readonly sum: string }[]> {
  const args = [
    '-v',
    'error',
    '-i',
    path,
    '-map',
    '0:v',
    '-c',
    'copy',
    '-copyts',
    '-f',
    'framehash',
    '-hash',
    'md5',
    '-',
  ];
  const lines = (await runFfmpeg(ffmpeg, args)).output.toString().split('\n');
  return lines
    .filter((line) => /^\d/.test(line))
    .map((line) => line.split(',').map((field) => field.trim()))
    .map((fields) => ({ time: Number(fields[2]), sum: fields[5] ?? '' }))
    .toSorted((a, b) => a.time - b.time);
}

/** Whether one run is made for many of them; how many it costs is asked elsewhere. */
const isMadeSo = ({ source, index, keys }: Awaited<ReturnType<typeof keysOf>>): boolean =>
  keys.length > 0 && canBeOneRun(source) && isOneRunCheaper(index, [...keys, ...keys]);

describe('key pictures in one run', () => {
  it.each([
    ['out of the tables of the clip', 'plain.mp4'],
    ['through all of it', 'plain.mkv'],
  ])('%s are the frames that a plain decode shows, all of them', async (_, name) => {
    const path = join(temporaryFolder(), name);
    const how = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '3', '-g', '20'];
    makeCodedClip(ffmpeg, 150, '30', [...how, path]);
    const clip = await keysOf(path);
    const pictures = await inOneRun(clip);
    expect(pictures.map(({ frame }) => frame)).toEqual(clip.keys);
    expect(clip.keys.length).toBeGreaterThan(6);
    const truth = decodedCodes(ffmpeg, path);
    expect(
      codesOfAll(
        ffmpeg,
        pictures.map(({ picture }) => picture),
      ),
    ).toEqual(clip.keys.map((frame) => truth[frame]));
    expect(runningCount()).toBe(0);
  });

  it('of ill clips are the frames that each by itself is; none stands for another one', async () => {
    const folder = temporaryFolder();
    let made = 0;
    for (const ill of ILL_CLIPS.filter((_, place) => place % sized(3, 1) === 0)) {
      const path = join(folder, ill.file);
      ill.make(ffmpeg, path, join(folder, `scratch-${ill.file}`));
      const clip = await keysOf(path).catch(() => null);
      if (clip === null || !isMadeSo(clip)) continue;
      const all = await inOneRun(clip);
      // A run each is what takes long.
      const pictures = all.filter((_, at) => at === 0 || at === all.length >> 1 || at === all.length - 1);
      const alone: WindowPicture[] = [];
      for (const { frame } of pictures) {
        const still = await decodeStill(clip.source, clip.index, frame, { ffmpeg, as: 'proxy' });
        alone.push({ layout: proxyLayout(proxySize(clip.index)), data: still?.data ?? new Uint8Array() });
      }
      expect(
        codesOfAll(
          ffmpeg,
          pictures.map(({ picture }) => picture),
        ),
        ill.name,
      ).toEqual(codesOfAll(ffmpeg, alone));
      // And in the very same colours as by a run that goes through the clip itself.
      const through: WindowPicture[] = [];
      for (const { frame } of pictures)
        through.push(...(await inOneRun({ ...clip, keys: [frame] })).map(({ picture }) => picture));
      const pixels = (of: readonly WindowPicture[]) =>
        pixelsOfAll(ffmpeg, of).map((each) => Buffer.from(each.data).toString('base64'));
      expect(pixels(pictures.map(({ picture }) => picture)), ill.name).toEqual(pixels(through));
      made += pictures.length;
    }
    expect(made).toBeGreaterThan(sized(10, 40));
  });

  it.each([
    ['H.264 with an edit', 'h264.mov', ['-c:v', 'libx264', '-bf', '2'], ['-itsoffset', '0.4']],
    ['HEVC', 'hevc.mp4', ['-c:v', 'libx265', '-x265-params', 'log-level=error:open-gop=0', '-tag:v', 'hvc1'], []],
  ])('of %s come as a file of the clip’s own pictures, byte by byte', async (_, name, coder, moved) => {
    const folder = temporaryFolder();
    const [plain, path, small] = ['plain.mov', name, 'small.mp4'].map((each) => join(folder, each)) as [
      string,
      string,
      string,
    ];
    makeCodedClip(ffmpeg, 60, '30', [...coder, '-pix_fmt', 'yuvj420p', '-g', '9', plain]);
    await runFfmpeg(ffmpeg, ['-v', 'error', ...moved, '-i', plain, '-c', 'copy', path]);
    const { index, keys } = await keysOf(path);
    // Neither the first nor the last, and not in order.
    const times = keys.slice(1, -1).map((frame) => index.frames[frame]?.pts ?? NaN);
    const file = await open(path);
    const few = await readFewPictures(file, times.toReversed());
    if (few === null) throw new Error('no small file was made');
    const pictures = await Promise.all(
      [...few.places].map(async (place, at) => {
        const bytes = new Uint8Array(few.sizes[at] ?? 0);
        await file.read(bytes, 0, bytes.length, place);
        return bytes;
      }),
    );
    await file.close();
    await writeFile(small, Buffer.concat([few.head, ...pictures]));
    const truth = (await packetSums(path)).filter(({ time }) => times.includes(time));
    expect(truth.length).toBe(times.length);
    expect((await packetSums(small)).map(({ time, sum }) => ({ time: time + few.first, sum }))).toEqual(truth);
  });

  it('are not taken for others where a time is none of a key picture, or the file is cut short', async () => {
    const folder = temporaryFolder();
    const [path, short] = [join(folder, 'whole.mp4'), join(folder, 'short.mp4')];
    makeCodedClip(ffmpeg, 60, '30', ['-c:v', 'libx264', '-g', '9', '-movflags', '+faststart', path]);
    const { index, keys } = await keysOf(path);
    const times = keys.map((frame) => index.frames[frame]?.pts ?? NaN);
    const of = async (from: string, wanted: readonly number[]) => {
      const file = await open(from);
      try {
        return await readFewPictures(file, wanted);
      } finally {
        await file.close();
      }
    };
    expect(await of(path, times)).not.toBe(null);
    expect(await of(path, [...times, index.frames[1]?.pts ?? NaN])).toBe(null);
    expect(await of(path, [...times, (times[1] ?? 0) + 1])).toBe(null);
    expect(await of(path, [])).toBe(null);
    await writeFile(short, (await readFile(path)).subarray(0, -100));
    expect(await of(short, times)).toBe(null);
  });

  it.each([
    [
      'H.264',
      ['-c:v', 'libx264', '-preset', 'ultrafast', '-bf', '3', '-g', '12', '-x264-params', 'open-gop=1:b-pyramid=2'],
    ],
    [
      'HEVC',
      [
        '-c:v',
        'libx265',
        '-preset',
        'ultrafast',
        '-x265-params',
        'open-gop=1:keyint=16:min-keyint=16:scenecut=0:bframes=3:log-level=error',
        '-tag:v',
        'hvc1',
      ],
    ],
  ])(
    'of %s that lean on pictures before them are none that stands for another, however few are asked for',
    async (_, coder) => {
      const path = join(temporaryFolder(), 'open.mp4');
      makeCodedClip(ffmpeg, sized(500, 1500), '30', [...coder, '-pix_fmt', 'yuv420p', path]);
      const clip = await keysOf(path);
      const truth = decodedCodes(ffmpeg, path);
      const random = seeded(24);
      const asked = Array.from({ length: sized(6, 40) }, () => {
        const share = 0.1 + 0.4 * random();
        return clip.keys.filter(() => random() < share);
      }).filter((keys) => keys.length > 1);
      for (const keys of [...asked, clip.keys.filter((__, at) => at % 8 === 0)]) {
        const pictures = await inOneRun({ ...clip, keys });
        const codes = codesOfAll(
          ffmpeg,
          pictures.map(({ picture }) => picture),
        );
        expect(codes).toEqual(pictures.map(({ frame }) => truth[frame]));
        const file = await open(path);
        const few = await readFewPictures(
          file,
          keys.map((frame) => clip.index.frames[frame]?.pts ?? NaN),
        );
        await file.close();
        expect(few, 'a small file of pictures that lean on others').toBe(null);
      }
    },
  );

  it('come as no small file of a codec that nobody here knows', async () => {
    const path = join(temporaryFolder(), 'intra.mov');
    makeCodedClip(ffmpeg, 30, '30', ['-c:v', 'mjpeg', '-q:v', '3', '-pix_fmt', 'yuvj420p', path]);
    const { index } = await keysOf(path);
    const file = await open(path);
    expect(await readFewPictures(file, [index.frames[3]?.pts ?? NaN, index.frames[9]?.pts ?? NaN])).toBe(null);
    await file.close();
  });

  itOn('golf/down-the-line-slow.mp4')('of a real clip stand upright in the small size', async () => {
    const clip = await keysOf(outsideMedia('golf/down-the-line-slow.mp4'));
    const pictures = await inOneRun(clip);
    expect(pictures.map(({ frame }) => frame)).toEqual(clip.keys);
    const [pixels] = pixelsOfAll(
      ffmpeg,
      pictures.map(({ picture }) => picture),
    );
    expect(Math.max(pixels?.width ?? 0, pixels?.height ?? 0)).toBe(STRIP_SIDE);
    expect((pixels?.width ?? 0) < (pixels?.height ?? 0)).toBe(clip.index.width < clip.index.height);
  });

  itOn('fields/paff_fields.ts')('are not made of fields', async () => {
    expect(isMadeSo(await keysOf(outsideMedia('fields/paff_fields.ts')))).toBe(false);
  });
});

describe('one run', () => {
  const index = (keys: number) => ({
    frames: Array.from({ length: keys * 10 }, (_, frame) => ({ pts: frame, ticks: 1, key: frame % 10 === 0 })),
  });

  it('is taken for most of the key pictures of a clip, or one, not for few of a long clip', () => {
    const all = index(10).frames.flatMap(({ key }, frame) => (key ? [frame] : []));
    expect(isOneRunCheaper(index(10), all)).toBe(true);
    expect(isOneRunCheaper(index(10), [50])).toBe(true);
    expect(isOneRunCheaper(index(200), [0, 1000, 1990])).toBe(false);
  });
});
