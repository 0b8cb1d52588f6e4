import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isOneRunCheaper, readKeyPictures } from '../../core/video/decode/key-pictures.ts';
import { decodeStill } from '../../core/video/decode/read-still.ts';
import type { WindowPicture } from '../../core/video/decode/frame-window.ts';
import { readClipSource } from '../../core/video/index/clip-source.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { STRIP_SIDE, proxyLayout, proxySize } from '../../core/video/proxy/proxy-size.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
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

/** Whether one run is made for many of them; how many it costs is asked elsewhere. */
const isMadeSo = ({ source, index, keys }: Awaited<ReturnType<typeof keysOf>>): boolean =>
  keys.length > 0 && isOneRunCheaper(source, index, [...keys, ...keys]);

describe('key pictures in one run', () => {
  it('are the frames that a plain decode shows, all of them', async () => {
    const path = join(temporaryFolder(), 'plain.mp4');
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
      made += pictures.length;
    }
    expect(made).toBeGreaterThan(sized(10, 40));
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
  const source = { format: 'mov', codec: 'h264', progressive: true } as const;
  const index = (keys: number) => ({
    frames: Array.from({ length: keys * 10 }, (_, frame) => ({ pts: frame, ticks: 1, key: frame % 10 === 0 })),
  });

  it('is taken for most of the key pictures of a clip, or one, not for few of a long clip', () => {
    const all = index(10).frames.flatMap(({ key }, frame) => (key ? [frame] : []));
    expect(isOneRunCheaper(source, index(10), all)).toBe(true);
    expect(isOneRunCheaper(source, index(10), [50])).toBe(true);
    expect(isOneRunCheaper(source, index(200), [0, 1000, 1990])).toBe(false);
  });
});
