import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { rawBytes } from '../../core/model/picture-layout.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { readStill } from '../../core/video/decode/read-still.ts';
import { ffmpegNow, makeCodedClip } from '../support/coded-clip.ts';
import { readCode } from '../support/coded-picture.ts';
import type { Pixels } from '../support/coded-picture.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { pixelsOfAll } from '../support/window-pixels.ts';

const ffmpeg = await findFfmpeg();
const COUNT = 24;
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '12'];

/** The parts, coded one after the other, as one clip. Each says how the coded pictures are scaled. */
function joined(file: string, scales: readonly string[]): string {
  const folder = temporaryFolder();
  const list = scales.map((scale, at) => {
    const part = join(folder, `part-${at}.ts`);
    makeCodedClip(ffmpeg, COUNT, '30', ['-vf', `scale=${scale}`, ...H264, part]);
    return `file ${part}`;
  });
  const path = join(folder, file);
  writeFileSync(join(folder, 'list.txt'), list.join('\n'));
  ffmpegNow(ffmpeg, ['-f', 'concat', '-safe', '0', '-i', join(folder, 'list.txt'), '-c', 'copy', path]);
  return path;
}

/** Frames as stills and from both windows, entered in the last part, then one before; every raw one of its layout's size. */
async function picturesOf(path: string, index: ClipIndex, frames: readonly number[]): Promise<Map<string, Pixels>> {
  const pictures = new Map<string, Pixels>();
  for (const frame of frames) {
    const still = await readStill(path, index, frame, { ffmpeg, as: 'rgba' });
    if (still !== null) pictures.set(`still ${frame}`, { ...still, step: 4 });
  }
  for (const kind of ['proxy', 'sharp'] as const) {
    const window = openFrameWindow(path, index, { ffmpeg, kind });
    const made = [];
    for (const frame of frames) made.push(await window.frame(frame));
    await window.close();
    for (const { layout, data } of made) expect(data).toHaveLength(rawBytes(layout) ?? data.length);
    pixelsOfAll(ffmpeg, made).forEach((pixels, at) => pictures.set(`${kind} ${frames[at] ?? -1}`, pixels));
  }
  expect(pictures.size).toBe(3 * frames.length);
  return pictures;
}

/** A part of a picture, in pixels from its left edge. */
function columns({ width, height, data, step }: Pixels, from: number, to: number): Pixels {
  const part = new Uint8Array((to - from) * height * step);
  for (let y = 0; y < height; y += 1)
    part.set(data.subarray((y * width + from) * step, (y * width + to) * step), y * (to - from) * step);
  return { width: to - from, height, data: part, step };
}

it.each(['mp4', 'ts', 'mkv'])('every frame of a clip that grows on the way fills the first size (%s)', async (kind) => {
  const path = joined(`grows.${kind}`, ['192:128', '384:256']);
  const index = await readClipIndex(path, { ffmpeg });
  expect(index).toMatchObject({ width: 192, height: 128 });
  expect(index.frames).toHaveLength(2 * COUNT);
  const pictures = await picturesOf(path, index, [COUNT + 21, COUNT - 1, COUNT]);
  for (const [name, pixels] of pictures)
    expect({ name, code: readCode(pixels) }).toEqual({ name, code: Number(name.split(' ')[1]) % COUNT });
});

it('one that becomes narrower keeps its proportions, in the middle of the frame', async () => {
  const path = joined('narrow.mp4', ['192:128', '96:128']);
  const index = await readClipIndex(path, { ffmpeg });
  expect(index).toMatchObject({ width: 192, height: 128 });
  for (const [name, pixels] of await picturesOf(path, index, [COUNT + 15, COUNT - 1, COUNT])) {
    const frame = Number(name.split(' ')[1]);
    const narrow = frame >= COUNT;
    expect({ name, code: readCode(narrow ? columns(pixels, 48, 144) : pixels) }).toEqual({ name, code: frame % COUNT });
    // Beside it is nothing: the lightest of the outer columns is as dark as black comes out.
    if (narrow)
      for (const [from, to] of [
        [0, 46],
        [146, 192],
      ] as const)
        expect(
          columns(pixels, from, to).data.reduce((most, value, at) => (at % 4 === 1 ? Math.max(most, value) : most), 0),
        ).toBeLessThan(24);
  }
});

it.each([
  ['', 176],
  [',transpose=cclock', 128],
])('a left edge within the coded picture is where it is shown to be%s', async (turn, width) => {
  const folder = temporaryFolder();
  const [coded, path] = [join(folder, 'coded.mp4'), join(folder, 'cropped.mp4')];
  // Sixteen columns more on the left, which the cropping takes away again.
  makeCodedClip(ffmpeg, 8, '30', ['-vf', `scale=176:128,pad=192:128:16:0:white${turn}`, ...H264, coded]);
  const crop = turn === '' ? 'crop_left=16' : 'crop_bottom=16';
  ffmpegNow(ffmpeg, [
    '-i',
    coded,
    '-c',
    'copy',
    '-bsf:v',
    `h264_metadata=${crop}`,
    '-f',
    'mpegts',
    join(folder, 'cropped.ts'),
  ]);
  ffmpegNow(ffmpeg, ['-i', join(folder, 'cropped.ts'), '-c', 'copy', path]);
  const index = await readClipIndex(path, { ffmpeg, verify: true });
  expect(index).toEqual(await readClipIndex(path, { ffmpeg }));
  expect(index.width).toBe(width);
  if (turn !== '') return;
  for (const [name, pixels] of await picturesOf(path, index, [7, 0]))
    expect({ name, code: readCode(pixels) }).toEqual({ name, code: Number(name.split(' ')[1]) });
});
