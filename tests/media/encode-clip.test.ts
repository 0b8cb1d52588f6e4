import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Ratio } from '../../core/model/frame.ts';
import { encodeClip } from '../../core/video/process/encode-clip.ts';
import type { ClipToEncode } from '../../core/video/process/encode-clip.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { readStill } from '../../core/video/decode/read-still.ts';
import { ffmpegNow } from '../support/coded-clip.ts';
import { CODED_HEIGHT, CODED_WIDTH, codedPicture, readCode } from '../support/coded-picture.ts';
import { colourAt, pixelsOf } from '../support/still-pixels.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';
import { windowPixels } from '../support/window-pixels.ts';
import { within } from '../support/within.ts';

const ffmpeg = await findFfmpeg();

async function* coded(count: number): AsyncGenerator<Uint8Array> {
  for (let number = 0; number < count; number += 1) {
    await Promise.resolve();
    const grey = codedPicture(number);
    yield Uint8Array.from({ length: grey.length * 4 }, (_, at) => grey[at >> 2] ?? 0);
  }
}

function order(out: string, count: number, rate: Ratio, more: Partial<ClipToEncode> = {}): ClipToEncode {
  return { ffmpeg, width: CODED_WIDTH, height: CODED_HEIGHT, rate, frames: coded(count), sound: null, out, ...more };
}

it('makes a clip like a camera: times, sound, capture rate, pictures that depend on later ones', async () => {
  const out = join(temporaryFolder(), 'clip.mp4');
  const counts: number[] = [];
  await encodeClip(
    order(
      out,
      60,
      { num: 120, den: 1 },
      {
        sound: { sampleRate: 48000, samples: new Float32Array(24000) },
        captureRateTag: 240,
        onProgress: (frames) => counts.push(frames),
      },
    ),
  );
  const { frames, ...facts } = await readClipIndex(out, { ffmpeg, verify: true });
  expect(facts).toMatchObject({
    width: CODED_WIDTH,
    height: CODED_HEIGHT,
    variable: false,
    nominalRate: { num: 120, den: 1 },
    captureRate: { framesPerSecond: { num: 240, den: 1 }, confirmed: false },
    sound: true,
  });
  expect(frames).toHaveLength(60);
  expect(counts).toEqual(Array.from({ length: 60 }, (_, at) => at + 1));
  const index = await readClipIndex(out, { ffmpeg });
  for (const frame of [0, 1, 31, 59]) {
    const still = await readStill(out, index, frame, { ffmpeg, as: 'png' });
    expect(still === null ? null : readCode(await pixelsOf(still.data))).toBe(frame);
  }
  const types = ffmpegNow(ffmpeg, ['-i', out, '-c', 'copy', '-an', '-f', 'framecrc', '-']).toString();
  const times = types
    .split('\n')
    .filter((line) => line.startsWith('0,'))
    .map((line) => Number(line.split(',')[2]));
  expect(times).not.toEqual(times.toSorted((a, b) => a - b));
});

it('reads a capture rate that is stored as a phone stores it, as a float', async () => {
  const out = join(temporaryFolder(), 'phone.mp4');
  await encodeClip(order(out, 2, { num: 30, den: 1 }, { captureRateTag: 1000 }));
  const bytes = readFileSync(out);
  // The value after type and language (QuickTime File Format, metadata item list): type 1 = text, 23 = 32-bit float.
  const value = bytes.indexOf(Buffer.from('\0\0\0\x01\0\0\0\x001000', 'latin1'));
  expect(value).toBeGreaterThan(0);
  bytes.writeUInt32BE(23, value);
  bytes.writeFloatBE(120000 / 1001, value + 8);
  writeFileSync(out, bytes);
  expect((await readClipIndex(out, { ffmpeg })).captureRate).toEqual({
    framesPerSecond: { num: 120000, den: 1001 },
    confirmed: false,
  });
});

it('keeps 30000/1001 exact', async () => {
  const out = join(temporaryFolder(), 'ntsc.mp4');
  await encodeClip(order(out, 10, { num: 30000, den: 1001 }));
  expect((await readClipIndex(out, { ffmpeg })).nominalRate).toEqual({ num: 30000, den: 1001 });
});

it('leaves nothing behind when it is cancelled or its pictures fail', async () => {
  const folder = temporaryFolder();
  const out = join(folder, 'clip.mp4');
  await expectRefused(encodeClip(order(out, 10, { num: 30, den: 1 }, { signal: AbortSignal.abort() })), 'cancelled');
  const wrong = (async function* (): AsyncGenerator<Uint8Array> {
    await Promise.resolve();
    yield new Uint8Array(3);
  })();
  await expect(encodeClip(order(out, 10, { num: 30, den: 1 }, { frames: wrong }))).rejects.toThrow(
    'must have 98304 bytes',
  );
  expect(readdirSync(folder)).toEqual([]);
});

it('never writes over a file, and refuses sizes that 4:2:0 cannot hold', async () => {
  const out = join(temporaryFolder(), 'clip.mp4');
  writeFileSync(out, 'precious');
  await expectRefused(encodeClip(order(out, 10, { num: 30, den: 1 })), 'file-exists');
  expect(readFileSync(out, 'utf8')).toBe('precious');
  await expect(encodeClip(order(out, 1, { num: 30, den: 1 }, { width: 191 }))).rejects.toThrow('even');
  const nowhere = '/nowhere/at/all/clip.mp4';
  await expectRefused(
    encodeClip(order(nowhere, 1, { num: 30, den: 1 })),
    'not-writable',
    /^There is no folder \/nowhere\/at\/all\./,
  );
});

/** Colours far from grey, where a wrong matrix or range shows. */
const COLOURS = [
  [200, 60, 40],
  [40, 160, 60],
  [30, 60, 200],
  [250, 240, 10],
  [128, 128, 128],
  [16, 16, 16],
] as const;
/** Two roundings of 8-bit 4:2:0 and a quiet encoder. */
const STILL_OFF = 3;
/** The same and JPEG's own. */
const PROXY_OFF = 6;

it.each([
  ['BT.709, limited', 'bt709', 'tv'],
  ['BT.601, limited', 'smpte170m', 'tv'],
  ['BT.709, full range', 'bt709', 'pc'],
  ['BT.601, full range', 'smpte170m', 'pc'],
] as const)('brings back colours of %s', async (_, matrix, range) => {
  const path = join(temporaryFolder(), 'colours.mp4');
  const picture = Buffer.concat(
    Array.from({ length: 64 }, () =>
      Buffer.concat(COLOURS.map((colour) => Buffer.concat(Array.from({ length: 32 }, () => Buffer.from(colour))))),
    ),
  );
  const tags = ['-colorspace', matrix, '-color_primaries', matrix, '-color_trc', matrix, '-color_range', range];
  const filter = `scale=out_color_matrix=${matrix === 'bt709' ? 'bt709' : 'bt601'}:out_range=${range},format=yuv420p`;
  const input = ['-f', 'rawvideo', '-pix_fmt', 'rgb24', '-s', '192x64', '-i', 'pipe:0'];
  ffmpegNow(ffmpeg, [...input, '-vf', filter, '-c:v', 'libx264', '-qp', '4', ...tags, path], picture);
  const index = await readClipIndex(path, { ffmpeg });
  const still = await readStill(path, index, 0, { ffmpeg, as: 'png' });
  if (still === null) throw new Error('no still');
  const exact = await pixelsOf(still.data);
  const [proxy, sharp] = await Promise.all((['proxy', 'sharp'] as const).map(firstPicture));
  if (proxy === undefined || sharp === undefined) throw new Error('no picture');
  async function firstPicture(kind: 'proxy' | 'sharp') {
    const window = openFrameWindow(path, index, { ffmpeg, kind });
    const picture = await window.frame(0);
    await window.close();
    return windowPixels(ffmpeg, picture);
  }
  for (const [place, colour] of COLOURS.entries())
    for (const [channel, value] of colour.entries()) {
      const across = (place + 0.5) / COLOURS.length;
      within(colourAt(exact, across, 0.5)[channel] ?? -1, value, STILL_OFF, `still ${place}/${channel}`);
      within(colourAt(sharp, across, 0.5)[channel] ?? -1, value, STILL_OFF, `sharp ${place}/${channel}`);
      within(colourAt(proxy, across, 0.5)[channel] ?? -1, value, PROXY_OFF, `proxy ${place}/${channel}`);
    }
});
