import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import type { DecodePass } from '../../core/time/settle-index.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import { buildCopy, buildUntil, numbers, timesOf } from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { writeMatrix } from '../support/write-matrix.ts';

const ffmpeg = await findFfmpeg();
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];
/** The only clip of these that a decoder finds damaged; what it remarks on the others spoils no picture that is shown. */
const COMPLAINED_ABOUT = ['cut-short.mp4'];

afterAll(() => {
  expect(runningCount()).toBe(0);
});

describe.each(ILL_CLIPS)('the proxy of a clip: $name', ({ file, make }) => {
  it('holds every frame that a plain decode shows, each under its own time, also when it was made in pieces', async () => {
    const folder = temporaryFolder();
    const path = join(folder, file);
    make(ffmpeg, path, join(folder, `scratch-${file}`));
    const truth = decodedCodes(ffmpeg, path);
    const index = await readClipIndex(path, { ffmpeg, verify: true });
    // What broke off has no picture and is last in time.
    const times = timesOf(index).slice(0, truth.length);
    const expected: DecodePass = { delivered: times, errors: COMPLAINED_ABOUT.includes(file) };

    const at = join(folder, 'whole');
    const { copy, result } = await buildCopy(at, { path, ffmpeg }, index);
    expect(result).toEqual(expected);
    expect([copy.complete, copy.count, copy.result]).toEqual([true, times.length, expected]);
    expect(await proxyCodes(ffmpeg, copy, times)).toEqual(truth);
    await copy.release();

    const last = times.length;
    for (const [place, stops] of [
      [1, last],
      [Math.ceil(last / 3), Math.ceil((2 * last) / 3) + 1],
    ].entries()) {
      const pieces = join(folder, `pieces-${place}`);
      for (const stopAt of new Set(stops))
        if (stopAt <= last) await buildUntil(pieces, { path, ffmpeg }, index, stopAt);
      const again = await buildCopy(pieces, { path, ffmpeg }, index);
      expect(again.result).toEqual(expected);
      expect(await proxyCodes(ffmpeg, again.copy, times)).toEqual(truth);
      await again.copy.release();
    }
  });
});

describe('the proxy of a clip that is', () => {
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
    const { copy } = await buildCopy(temporaryFolder(), { path, ffmpeg }, index);
    expect([copy.width, copy.height]).toEqual([192, 128]);
    expect(await proxyCodes(ffmpeg, copy, timesOf(index))).toEqual([0, 1, 2]);
    await copy.release();
  });

  it.each(['arib-std-b67', 'smpte2084'])('of high dynamic range (%s) is of standard range', async (curve) => {
    const path = join(temporaryFolder(), 'hdr.mp4');
    const colour = `colorprim=bt2020:transfer=${curve}:colormatrix=bt2020nc:log-level=error`;
    makeCodedClip(ffmpeg, 10, '30', ['-c:v', 'libx265', '-pix_fmt', 'yuv420p10le', '-x265-params', colour, path]);
    const index = await readClipIndex(path, { ffmpeg });
    expect(index.dynamicRange).not.toBe('sdr');
    const { copy, result } = await buildCopy(temporaryFolder(), { path, ffmpeg }, index);
    expect(result).toEqual({ delivered: timesOf(index), errors: false });
    expect(await proxyCodes(ffmpeg, copy, timesOf(index))).toEqual(numbers(10));
    await copy.release();
  });

  it('large is made small', async () => {
    const path = join(temporaryFolder(), 'large.mp4');
    makeCodedClip(ffmpeg, 2, '30', ['-vf', 'scale=1080:1920', ...H264, path]);
    const index = await readClipIndex(path, { ffmpeg });
    const { copy } = await buildCopy(temporaryFolder(), { path, ffmpeg }, index);
    expect([copy.width, copy.height]).toEqual([720, 1280]);
    expect(await proxyCodes(ffmpeg, copy, timesOf(index))).toEqual([0, 1]);
    await copy.release();
  });
});
