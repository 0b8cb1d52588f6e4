import { readFileSync } from 'node:fs';
import { describe, expect } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { ticksToSeconds } from '../../core/time/rational.ts';
import { readClipSource } from '../../core/video/index/clip-source.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import { hdrCurve, pictureFilter } from '../../core/video/decode/picture-filter.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { readStill } from '../../core/video/decode/read-still.ts';
import { toneCube } from '../../core/video/decode/tone-cube-file.ts';
import { ffmpegNow } from '../support/coded-clip.ts';
import { readCounter } from '../support/counter.ts';
import { drawn } from '../support/drawn.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { sized } from '../support/sized.ts';
import { colourAt, pixelsOf } from '../support/still-pixels.ts';
import { windowPixels } from '../support/window-pixels.ts';
import { within } from '../support/within.ts';

const ffmpeg = await findFfmpeg();

/** Read once a file: to verify decodes all of it, and nothing writes to it. */
const indices = new Map<string, Promise<ClipIndex>>();
function indexOf(path: string): Promise<ClipIndex> {
  const index = indices.get(path) ?? readClipIndex(path, { ffmpeg, verify: true });
  indices.set(path, index);
  return index;
}

/** A check on an outside clip. */
function onClip(name: string, file: string, check: (path: string, index: ClipIndex) => Promise<void> | void): void {
  itOn(file)(`${file}: ${name}`, async () => {
    const path = outsideMedia(file);
    await check(path, await indexOf(path));
  });
}

async function png(path: string, index: ClipIndex, frame: number): Promise<Uint8Array> {
  const still = await readStill(path, index, frame, { ffmpeg, as: 'png' });
  if (still === null) throw new Error(`no frame ${frame}`);
  return still.data;
}

const FACTS: readonly (readonly [file: string, facts: Partial<ClipIndex>, count: number])[] = [
  ['golf/down-the-line-slow.mp4', { width: 354, height: 492, sound: true, variable: false, captureRate: null }, 264],
  ['timing/sample_edit_list.mp4', { width: 1080, height: 1920, turn: 90, mirrored: false, sound: true }, 77],
  ['timing/bipbop.mp4', { width: 400, height: 300, sound: true }, 296],
  ['timing/cursed-vfr.mp4', { width: 3026, height: 1386, variable: true, sound: false }, 63],
  ['timing/hdr10-video-with-sdr-container.mp4', { width: 1920, height: 1080, variable: true }, 28],
  ['timing/nasa_13013.mp4', { width: 480, height: 270, nominalRate: { num: 30000, den: 1001 } }, 390],
  ['timing/counting.mp4', { width: 352, height: 288, nominalRate: { num: 30, den: 1 } }, 295],
  ['aspect/sar_2x1.mp4', { width: 1280, height: 360, pixelAspect: { num: 2, den: 1 } }, 150],
];

for (const [file, facts, count] of FACTS)
  onClip('size, turn, pixel shape, rate and number of frames', file, (path, index) => {
    expect(path).toContain(file);
    expect(index).toMatchObject(facts);
    expect(index.frames).toHaveLength(count);
  });

/** Numbers of some frames: about the second key picture and the end; in the long run the start and the middle as well. */
function picks(index: ClipIndex): number[] {
  const last = index.frames.length - 1;
  const key = index.frames.findIndex((frame, at) => at > 0 && frame.key);
  const about = sized([key - 1, key], [key - 2, key - 1, key, key + 1]);
  const near = key < 0 ? [Math.floor(last / 2)] : about.filter((at) => at >= 0 && at <= last);
  return [...new Set([...near, ...sized([], [0, Math.floor(last / 2)]), last])].sort((a, b) => a - b);
}

describe('a still is, byte for byte, the frame that counting from the start finds', () => {
  for (const [file] of FACTS)
    onClip('at both ends, in the middle, about a key picture', file, async (path, index) => {
      const frames = picks(index);
      const source = await readClipSource(path, { ffmpeg });
      const curve = hdrCurve(source.colour);
      const cube = curve === null ? null : toneCube(curve);
      // The same conversion; what is in question is which frame comes out of it.
      const show = pictureFilter(index, source, 'rgba', cube === null ? null : `${cube.folder}/${cube.name}`);
      const wanted = frames.map((frame) => `eq(n,${frame})`).join('+');
      const stream = file.includes('nasa') ? '0:3' : '0:v:0';
      const args = ['-noautorotate', '-i', path, '-map', stream, '-vf', `select='${wanted}',${show}`];
      const counted = ffmpegNow(ffmpeg, [...args, '-fps_mode', 'passthrough', '-f', 'rawvideo', '-']);
      const size = index.width * index.height * 4;
      expect(counted).toHaveLength(size * frames.length);
      for (const [place, frame] of frames.entries()) {
        const still = await readStill(path, index, frame, { ffmpeg, as: 'rgba' });
        expect(still).toMatchObject({ width: index.width, height: index.height, pts: index.frames[frame]?.pts });
        const same = still !== null && counted.subarray(place * size, (place + 1) * size).equals(still.data);
        expect({ frame, same }).toEqual({ frame, same: true });
      }
    });
});

describe('published time stamps', () => {
  onClip('all 390 of stream 3 (pytorch/torchcodec)', 'timing/nasa_13013.mp4', (path, index) => {
    const published: unknown = JSON.parse(readFileSync(`${path}.stream3.all_frames_info.json`, 'utf8'));
    if (!Array.isArray(published)) throw new Error('the published list is no list');
    const ours = index.frames.map(({ pts }) => ticksToSeconds(pts, index.timebase).toFixed(6));
    expect(ours).toEqual(published.map((frame: { pts_time: string }) => frame.pts_time));
  });

  onClip(
    'the 77 shown samples, 11.667 ms earlier than the dump says (androidx/media)',
    'timing/sample_edit_list.mp4',
    (path, index) => {
      const dump = readFileSync(`${path}.0.dump`, 'utf8');
      const video = dump.slice(dump.indexOf('track 0:'), dump.indexOf('track 1:'));
      const times = [...video.matchAll(/^ +time = (-?\d+)$/gm)].map((match) => Number(match[1])).sort((a, b) => a - b);
      expect(times).toHaveLength(86);
      // Eight lie before the edit begins, one after its end.
      for (const [at, time] of times.slice(8, 85).entries()) {
        const ours = ticksToSeconds(index.frames[at]?.pts ?? 0, index.timebase);
        // The dump counts whole microseconds.
        within(time / 1e6 - ours, 0.011667, 1.5e-6, `frame ${at}`);
      }
    },
  );
});

describe('burned-in counters', () => {
  onClip('frame n shows n', 'timing/bipbop.mp4', async (path, index) => {
    const glyphs = await Promise.all(
      [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map(async (n) => pixelsOf(await png(path, index, n))),
    );
    for (const frame of drawn([0, 10, 26, 57, 99, 100, 101, 148, 203, 264, 295], 0, 4))
      expect(readCounter(await pixelsOf(await png(path, index, frame)), glyphs)).toBe(frame);
    const window = openFrameWindow(path, index, { ffmpeg, kind: 'sharp' });
    for (const frame of [290, 289, 288, 120, 121, 122, 9])
      expect(readCounter(windowPixels(ffmpeg, await window.frame(frame)), glyphs)).toBe(frame);
    await window.close();
  });
});

/** Corners from the top left, row by row: where the four colours stand once the matrix is followed. */
const CORNERS: Readonly<Record<string, readonly string[]>> = {
  '': ['yellow', 'red', 'blue', 'green'],
  '-rotate-90': ['yellow', 'red', 'blue', 'green'],
  '-rotate-180': ['yellow', 'red', 'blue', 'green'],
  '-rotate-270': ['yellow', 'red', 'blue', 'green'],
  '-hflip': ['red', 'yellow', 'green', 'blue'],
  '-vflip': ['blue', 'green', 'yellow', 'red'],
};
const RGB: Readonly<Record<string, readonly number[]>> = {
  yellow: [255, 255, 0],
  red: [255, 0, 0],
  blue: [0, 0, 255],
  green: [0, 255, 0],
};
/** What BT.601 in 8 bits and the encoder leave of a pure colour. */
const COLOUR_OFF = 6;

describe('the display matrix (WebGPU conformance test suite)', () => {
  for (const [kind, corners] of Object.entries(CORNERS))
    onClip('every colour in its corner', `turned/four-colors-h264-bt601${kind}.mp4`, async (path, index) => {
      expect([index.width, index.height]).toEqual([320, 240]);
      const pictures = [await pixelsOf(await png(path, index, 7))];
      for (const kind of ['proxy', 'sharp'] as const) {
        const window = openFrameWindow(path, index, { ffmpeg, kind });
        pictures.push(windowPixels(ffmpeg, await window.frame(7)));
        await window.close();
      }
      for (const pixels of pictures) {
        for (const [corner, colour] of corners.entries()) {
          const found = colourAt(pixels, corner % 2 === 0 ? 0.25 : 0.75, corner < 2 ? 0.25 : 0.75);
          for (const [channel, value] of (RGB[colour] ?? []).entries())
            within(found[channel] ?? -1, value, COLOUR_OFF, `${kind} corner ${corner}`);
        }
      }
    });
});

describe('high dynamic range', () => {
  for (const file of ['timing/sample_edit_list.mp4', 'timing/hdr10-video-with-sdr-container.mp4'])
    onClip('becomes a PNG of 8 bits that is neither dark nor washed out', file, async (path, index) => {
      const picture = await png(path, index, 14);
      // Bit depth and colour kind in the PNG header (ISO/IEC 15948, 11.2.2).
      expect([...picture.subarray(24, 26)]).toEqual([8, 2]);
      const { data } = await pixelsOf(picture);
      const greens = Uint8Array.from({ length: data.length / 4 }, (_, at) => data[at * 4 + 1] ?? 0).sort();
      const share = (part: number): number => greens[Math.floor(part * (greens.length - 1))] ?? 0;
      expect(share(0.02)).toBeLessThan(60);
      expect(share(0.98)).toBeGreaterThan(180);
      within(share(0.5), 128, 70);
    });
});
