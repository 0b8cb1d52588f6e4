import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { ffmpegNow, makeCodedClip } from '../support/coded-clip.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { runBaybook } from '../support/run-baybook.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();
const PHONE = 'timing/sample_edit_list.mp4';
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '0', '-g', '12'];

/** 60 pictures at 30 times: each two share one. */
function doubledClip(): string {
  const folder = temporaryFolder();
  const [plain, out] = [join(folder, 'plain.mkv'), join(folder, 'doubled.mkv')];
  makeCodedClip(ffmpeg, 60, '30', [...H264, plain]);
  const times = 'setts=pts=2*floor(N/2)*33:dts=2*floor(N/2)*33';
  ffmpegNow(ffmpeg, ['-i', plain, '-c', 'copy', '-bsf:v', times, out]);
  return out;
}

describe('pictures of a file that are no frames are counted', () => {
  it('those at the time of another one, from the table and from a decode alike', async () => {
    const path = doubledClip();
    for (const verify of [false, true]) {
      const index = await readClipIndex(path, { ffmpeg, verify });
      expect(index.frames).toHaveLength(30);
      expect(index.leftOut).toEqual({ doubled: 30, hidden: 0, timeless: 0 });
    }
    const leftOut = { doubled: 30, hidden: 0, timeless: 0 };
    expect(JSON.parse((await runBaybook(['frames', path, '--json'])).out)).toMatchObject({ count: 30, leftOut });
    expect((await runBaybook(['frames', path])).out).toContain(`leftOut      ${JSON.stringify(leftOut)}`);
  });

  itOn(PHONE)('those before and after the edit of a phone: its published list has 86, 77 are shown', async () => {
    const index = await readClipIndex(outsideMedia(PHONE), { ffmpeg });
    expect(index.frames).toHaveLength(77);
    expect(index.leftOut).toEqual({ doubled: 0, hidden: 9, timeless: 0 });
  });

  it('and where the decoder gives times that the file does not give, none is lost', async () => {
    const path = join(temporaryFolder(), 'times.avi');
    makeCodedClip(ffmpeg, 24, '30', ['-c:v', 'mpeg4', '-bf', '2', '-g', '12', '-qscale:v', '3', '-threads', '1', path]);
    const index = await readClipIndex(path, { ffmpeg });
    expect(index.frames).toHaveLength(24);
    expect(index.leftOut).toEqual({ doubled: 0, hidden: 0, timeless: 0 });
  });
});
