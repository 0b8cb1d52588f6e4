import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import type { ProxySide } from '../../core/video/proxy/proxy-size.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { CLIP_SHA, NEVER, buildCopy, buildUntil, numbers, timesOf } from '../support/proxy-builds.ts';
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

  it('looked at on a small screen is smaller, and on a larger one is made anew; a larger copy is good on both', async () => {
    const path = join(temporaryFolder(), 'screens.mp4');
    makeCodedClip(ffmpeg, 6, '30', ['-vf', 'scale=1920:1080', ...H264, path]);
    const index = await readClipIndex(path, { ffmpeg });
    const folder = temporaryFolder();
    const sizeOn = async (longest: ProxySide): Promise<readonly number[]> => {
      const copies = new ProxyStore(folder);
      const copy = await copies.open({ sha256: CLIP_SHA, index, longest });
      const before = copy.count;
      await copies.build(copy, { path, ffmpeg }, { signal: NEVER });
      expect(await proxyCodes(ffmpeg, copy, timesOf(index))).toEqual(numbers(6));
      const { width, height } = copy;
      await copy.release();
      return [before, width, height];
    };
    expect(await sizeOn(960)).toEqual([0, 960, 540]);
    expect(await sizeOn(960)).toEqual([6, 960, 540]);
    expect(await sizeOn(1280)).toEqual([0, 1280, 720]);
    expect(await sizeOn(960)).toEqual([6, 1280, 720]);
  });

  it('larger than the screen asks for is gone on with in its own size', async () => {
    const path = join(temporaryFolder(), 'half.mp4');
    makeCodedClip(ffmpeg, 12, '30', ['-vf', 'scale=1920:1080', ...H264, path]);
    const index = await readClipIndex(path, { ffmpeg });
    const folder = temporaryFolder();
    await buildUntil(folder, { path, ffmpeg }, index, 5);
    const copies = new ProxyStore(folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index, longest: 960 });
    await copies.build(copy, { path, ffmpeg }, { signal: NEVER });
    expect(await proxyCodes(ffmpeg, copy, timesOf(index))).toEqual(numbers(12));
    expect([copy.width, copy.height]).toEqual([1280, 720]);
    for (const pts of timesOf(index)) {
      const data = await copy.read(pts);
      if (data === null) throw new Error(`no picture at ${pts}`);
      // The first lines of an H.264 picture name its size: all are of one.
      expect(data.subarray(0, 24)).toEqual((await copy.read(timesOf(index)[0] ?? 0))?.subarray(0, 24));
    }
    await copy.release();
  });
});
