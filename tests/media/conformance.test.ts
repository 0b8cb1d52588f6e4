import { join } from 'node:path';
import { describe, expect } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import { readClipIndexReport } from '../../core/video/index/read-clip-index.ts';
import { readStill } from '../../core/video/decode/read-still.ts';
import { ffmpegNow } from '../support/coded-clip.ts';
import { itOn, outsideMedia } from '../support/outside-media.ts';
import { checksumsOf, checksumsOfRaw, publishedChecksums } from '../support/published-checksums.ts';
import { sized } from '../support/sized.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ffmpeg = await findFfmpeg();

/** ITU-T H.264.1 streams with the checksum of every decoded frame as FFmpeg's own test suite publishes them. */
const STREAMS = [
  'BA1_Sony_D.jsv',
  'BAMQ1_JVC_C.264',
  'BA_MW_D.264',
  'CI_MW_D.264',
  'CVFC1_Sony_C.jsv',
  'MIDR_MW_D.264',
  'MR1_BT_A.h264',
  'MR2_TANDBERG_E.264',
  'NL1_Sony_D.jsv',
  'NRF_MW_E.264',
  'SVA_BA1_B.264',
  'SVA_CL1_E.264',
  'SVA_NL1_B.264',
] as const;

describe.each(STREAMS)('%s', (name) => {
  itOn(`h264-conformance/${name}`)('wrapped in MP4 keeps every frame, bit for bit and in order', async () => {
    const stream = outsideMedia(`h264-conformance/${name}`);
    const published = publishedChecksums(`h264-conformance-${name.replace(/\.\w+$/, '').toLowerCase()}`);
    expect(published.length).toBeGreaterThan(10);

    const path = join(temporaryFolder(), 'wrapped.mp4');
    ffmpegNow(ffmpeg, ['-f', 'h264', '-fflags', '+genpts', '-framerate', '25', '-i', stream, '-c', 'copy', path]);
    const decoded = ffmpegNow(ffmpeg, [
      '-bitexact',
      '-flags',
      '+bitexact+unaligned',
      '-i',
      path,
      '-fps_mode',
      'passthrough',
      '-f',
      'framecrc',
      '-bitexact',
      '-',
    ]);
    expect(checksumsOf(decoded.toString())).toEqual(published);

    const { index, report } = await readClipIndexReport(path, { ffmpeg, verify: true });
    expect(index.frames).toHaveLength(published.length);
    expect(report).toMatchObject({ tableDiffered: false, doubled: 0, timeless: 0 });

    // A still's colours are converted; converted the same way, the bare stream's own frames are the truth.
    const last = published.length - 1;
    const picks = [...new Set(sized([1, last], [0, 1, Math.floor(last / 2), last]))];
    const wanted = picks.map((frame) => `eq(n,${frame})`).join('+');
    const convert =
      'scale=in_color_matrix=bt601:flags=bicubic+accurate_rnd+full_chroma_int+full_chroma_inp,format=rgba';
    const bare = ffmpegNow(ffmpeg, [
      '-flags',
      '+unaligned',
      '-f',
      'h264',
      '-i',
      stream,
      '-vf',
      `select='${wanted}',${convert}`,
      '-fps_mode',
      'passthrough',
      '-f',
      'rawvideo',
      '-',
    ]);
    const size = index.width * index.height * 4;
    for (const [place, frame] of picks.entries()) {
      const still = await readStill(path, index, frame, { ffmpeg, as: 'rgba' });
      expect(still !== null && bare.subarray(place * size, (place + 1) * size).equals(still.data)).toBe(true);
    }
    const window = openFrameWindow(path, index, { ffmpeg, kind: 'sharp' });
    const sharp = [];
    for (const frame of picks) sharp.push(await window.frame(frame));
    await window.close();
    expect(checksumsOfRaw(ffmpeg, sharp)).toEqual(picks.map((frame) => published[frame]));
  });
});
