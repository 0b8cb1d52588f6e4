import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { isDamaged } from '../../core/time/damaged-spans.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { readStill } from '../../core/video/decode/read-still.ts';
import { ffmpegNow, makeCodedClip } from '../support/coded-clip.ts';
import { readCode } from '../support/coded-picture.ts';
import { decodedPictures, shownOf } from '../support/plain-decode.ts';
import { buildCopy } from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { pixelsOfAll } from '../support/window-pixels.ts';

const ffmpeg = await findFfmpeg();
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '12'];

/** Ticks of 1/15360 s, 512 a frame; `times` of the packets as ffmpeg's setts takes them. */
function retimed(times: string): string {
  const folder = temporaryFolder();
  const [plain, path] = [join(folder, 'plain.mp4'), join(folder, 'retimed.mp4')];
  makeCodedClip(ffmpeg, 60, '30', [...H264, plain]);
  ffmpegNow(ffmpeg, ['-i', plain, '-c', 'copy', '-bsf:v', `setts=${times}`, path]);
  return path;
}

it.each([
  ['from its middle on earlier by two frames', "pts='PTS-if(gte(N,36),1100,0)':dts='N*512-1024'"],
  ['now and then later by two frames', "pts='PTS+if(eq(mod(N,7),3),1024,0)':dts=DTS"],
  ['those of decoding instead of showing', 'pts=DTS:dts=DTS'],
])('every picture of a clip is that of its frame when its times are %s', async (_, times) => {
  const path = retimed(times);
  const truth = shownOf(decodedPictures(ffmpeg, path));
  const index = await readClipIndex(path, { ffmpeg, verify: true });
  expect(index.frames.map(({ pts }) => pts)).toEqual(truth.map(({ pts }) => pts));
  const frames = [truth.length - 1, 44, 32, 24, 20, 8, 0];
  for (const frame of frames) {
    const still = await readStill(path, index, frame, { ffmpeg, as: 'rgba' });
    const code = still === null ? -1 : readCode({ ...still, step: 4 });
    expect({ frame, code }).toEqual({ frame, code: truth[frame]?.code });
  }
  const window = openFrameWindow(path, index, { ffmpeg, kind: 'proxy' });
  const pictures = [];
  for (const frame of frames) pictures.push(await window.frame(frame));
  await window.close();
  expect(pixelsOfAll(ffmpeg, pictures).map(readCode)).toEqual(frames.map((frame) => truth[frame]?.code));
  const { copy } = await buildCopy(join(temporaryFolder(), 'copies'), { path, ffmpeg }, index);
  expect(
    await proxyCodes(
      ffmpeg,
      copy,
      truth.map(({ pts }) => pts),
    ),
  ).toEqual(truth.map(({ code }) => code));
  await copy.release();
});

it('where they begin again in the middle, no picture is entered at, with and without a decode', async () => {
  const path = join(temporaryFolder(), 'twice.ts');
  makeCodedClip(ffmpeg, 48, '30', [...H264, path]);
  const once = readFileSync(path);
  writeFileSync(path, Buffer.concat([once, once]));
  for (const verify of [false, true])
    expect((await readClipIndex(path, { ffmpeg, verify })).frames.some(({ key }) => key)).toBe(false);
});

it('a TS that begins in the middle of a group opens, however much is complained of before its header', async () => {
  const folder = temporaryFolder();
  const [whole, path] = [join(folder, 'whole.ts'), join(folder, 'middle.ts')];
  const slices = ['-x264-params', 'keyint=500:min-keyint=500:scenecut=0:slices=8'];
  makeCodedClip(ffmpeg, 600, '120', ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', ...slices, whole]);
  const bytes = readFileSync(whole);
  writeFileSync(path, bytes.subarray(188 * Math.floor(bytes.length / 188 / 50)));
  const report = spawnSync(ffmpeg.path, ['-nostdin', '-i', path], { maxBuffer: 64 * 1024 * 1024 }).stderr.toString();
  // More than was kept of a report before.
  expect(report.indexOf('Input #0')).toBeGreaterThan(256 * 1024);

  const truth = decodedPictures(ffmpeg, path);
  expect(truth.at(-1)?.code).toBe(599);
  const index = await readClipIndex(path, { ffmpeg, verify: true });
  const shown = [...index.frames.entries()].filter(([at]) => !isDamaged(index, at));
  expect(shown.map(([, { pts }]) => pts)).toEqual(truth.map(({ pts }) => pts));
  const last = index.frames.length - 1;
  const still = await readStill(path, index, last, { ffmpeg, as: 'rgba' });
  expect(still === null ? -1 : readCode({ ...still, step: 4 })).toBe(599);
});
