import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { buildCopy, numbers, timesOf } from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];

afterAll(() => {
  expect(runningCount()).toBe(0);
});

describe('the proxy of a clip that is', () => {
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
