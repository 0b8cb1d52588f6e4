import { chmodSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { readStill } from '../../core/video/decode/read-still.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ffmpegNow, makeCodedClip } from '../support/coded-clip.ts';
import { drawn } from '../support/drawn.ts';
import { heldFile, noFiles } from '../support/held-file.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();
const H264 = ['-c:v', 'libx264', '-pix_fmt', 'yuv420p'];

function file(name: string, content: string | Uint8Array): string {
  const path = join(temporaryFolder(), name);
  writeFileSync(path, content);
  return path;
}

it('never opens the clip that a playlist under a false name points at', async () => {
  const folder = temporaryFolder();
  const real = join(folder, 'real.mp4');
  makeCodedClip(ffmpeg, 3, '30', [...H264, real]);
  const lists = {
    'hls.mp4': `#EXTM3U\n#EXT-X-TARGETDURATION:1\n#EXTINF:1,\n${real}\n#EXT-X-ENDLIST\n`,
    'concat.mp4': `ffconcat version 1.0\nfile '${real}'\n`,
    'dash.mp4': '<?xml version="1.0"?>\n<MPD xmlns="urn:mpeg:dash:schema:mpd:2011"></MPD>\n',
  };
  for (const [name, text] of Object.entries(lists))
    await expectRefused(readClipIndex(file(name, text), { ffmpeg }), 'format-refused', /list/);
});

it('says what is wrong with a file that is no clip', async () => {
  await expectRefused(readClipIndex(file('empty.mp4', ''), { ffmpeg }), 'file-empty');
  await expectRefused(readClipIndex(file('note.mp4', 'Dear coach, here is my swing.'), { ffmpeg }), 'not-a-clip');
  await expectRefused(readClipIndex(temporaryFolder(), { ffmpeg }), 'file-unreadable');
  await expectRefused(readClipIndex('/nowhere/swing.mp4', { ffmpeg }), 'file-not-found');
});

it('names a clip that is moved away while it is read', async () => {
  const clip = join(temporaryFolder(), 'moving.mp4');
  makeCodedClip(ffmpeg, 3, '30', [...H264, clip]);
  // The real ffmpeg; the clip goes as soon as it has read it.
  const script = file('ffmpeg', `#!/bin/sh\n"${ffmpeg.path}" "$@"\nmv '${clip}' '${clip}.elsewhere'\n`);
  chmodSync(script, 0o755);
  await expectRefused(readClipIndex(clip, { ffmpeg: { ...ffmpeg, path: script } }), 'file-not-found', /moving\.mp4/);
});

it('says what is wrong with a damaged clip', async () => {
  const whole = join(temporaryFolder(), 'whole.mp4');
  makeCodedClip(ffmpeg, 30, '30', [...H264, whole]);
  const bytes = readFileSync(whole);
  const half = bytes.subarray(0, bytes.indexOf('moov') - 100);
  await expectRefused(readClipIndex(file('half.mp4', half), { ffmpeg }), 'clip-damaged', /cut off/);
  const tableCut = bytes.subarray(0, bytes.length - 200);
  await expectRefused(readClipIndex(file('cut.mp4', tableCut), { ffmpeg }), 'clip-damaged');
  await expectRefused(readClipIndex(file('head.mp4', bytes.subarray(0, 40)), { ffmpeg }), 'clip-damaged');
  const noise = Buffer.concat([bytes.subarray(0, 32), Buffer.alloc(5000, 0x5a)]);
  await expectRefused(readClipIndex(file('noise.mp4', noise), { ffmpeg }), 'clip-damaged');
});

/** What a refusal may take on a busy machine, ms; reading such a file took minutes. */
const REFUSAL_LIMIT = 15_000;

it.each(['mp4', 'ts', 'mkv', 'avi', 'flv', 'mpg'])('says that a %s of gigabytes is mostly holes', async (name) => {
  const path = join(temporaryFolder(), `swing.${name}`);
  makeCodedClip(ffmpeg, 10, '30', ['-c:v', name === 'mpg' ? 'mpeg2video' : 'libx264', '-pix_fmt', 'yuv420p', path]);
  const whole = (await readClipIndex(path, { ffmpeg })).frames.length;
  expect(whole).toBe(10);
  truncateSync(path, 3 * 1024 ** 3);
  const began = performance.now();
  await expectRefused(readClipIndex(path, { ffmpeg, verify: true }), 'clip-damaged', /not all there: most of its 3 GB/);
  expect(performance.now() - began).toBeLessThan(REFUSAL_LIMIT);
});

it('says that a file is larger than any clip', async () => {
  const path = join(temporaryFolder(), 'day.mp4');
  makeCodedClip(ffmpeg, 3, '30', [...H264, path]);
  truncateSync(path, 20 * 1024 ** 3);
  await expectRefused(readClipIndex(path, { ffmpeg }), 'too-large', /20 GB.*up to 16 GB.*Cut the swings out/);
});

it.each(drawn(['mjpeg', 'libx264', 'png']))(
  'says that pictures are too large (%s), without making one',
  async (codec) => {
    const folder = temporaryFolder();
    const path = join(folder, 'wall.mov');
    const small = join(folder, 'small.mov');
    const encoder = ['-c:v', codec, ...(codec === 'libx264' ? ['-preset', 'ultrafast'] : [])];
    for (const [size, out] of [
      ['16000x8000', path],
      ['640x320', small],
    ] as const)
      ffmpegNow(ffmpeg, ['-f', 'lavfi', '-i', `color=s=${size}:r=1:d=1`, ...encoder, out]);
    // The memory of one such picture is more than it may have.
    const bounded = join(folder, 'bounded-ffmpeg');
    writeFileSync(bounded, `#!/bin/sh\nulimit -d 300000\nexec '${ffmpeg.path}' "$@"\n`);
    chmodSync(bounded, 0o755);
    const frugal = { ...ffmpeg, path: bounded };
    expect((await readClipIndex(small, { ffmpeg: frugal, verify: true })).frames).toHaveLength(1);
    const began = performance.now();
    await expectRefused(
      readClipIndex(path, { ffmpeg: frugal, verify: true }),
      'too-large',
      /have 16000 x 8000 pixels; Baybook opens up to 8192 x 4320/,
    );
    expect(performance.now() - began).toBeLessThan(REFUSAL_LIMIT);
  },
);

it('says what is no file, and what never opens, and leaves nothing running', async () => {
  const { folder, pipe, line, device } = await noFiles();
  for (const path of [folder, pipe, line, device])
    await expectRefused(readClipIndex(path, { ffmpeg }), 'file-unreadable', /not a file\. Choose a file/);
  const clip = join(temporaryFolder(), 'swing.mp4');
  makeCodedClip(ffmpeg, 3, '30', [...H264, clip]);
  const held = await heldFile(clip, 'held.mp4');
  await expectRefused(readClipIndex(held, { ffmpeg }), 'file-unreadable', /does not answer/);
  expect((await readClipIndex(clip, { ffmpeg })).frames).toHaveLength(3);
  expect(runningCount()).toBe(0);
});

it('says that a file holds no moving pictures', async () => {
  const folder = temporaryFolder();
  const sound = join(folder, 'sound.mp4');
  ffmpegNow(ffmpeg, ['-f', 'lavfi', '-i', 'sine=d=0.5', '-c:a', 'aac', sound]);
  await expectRefused(readClipIndex(sound, { ffmpeg }), 'no-video');
  const cover = join(folder, 'cover.m4a');
  const picture = ['-f', 'lavfi', '-i', 'color=s=64x64:d=0.04', '-map', '0:a', '-map', '1:v'];
  ffmpegNow(ffmpeg, [
    '-i',
    sound,
    ...picture,
    '-c:a',
    'copy',
    '-c:v',
    'mjpeg',
    '-disposition:v',
    'attached_pic',
    '-f',
    'mp4',
    cover,
  ]);
  await expectRefused(readClipIndex(cover, { ffmpeg }), 'no-video');
});

it('has no frame beyond the ends', async () => {
  const path = join(temporaryFolder(), 'three.mp4');
  makeCodedClip(ffmpeg, 3, '30', [...H264, path]);
  const index = await readClipIndex(path, { ffmpeg });
  for (const frame of [-1, 3, 0.5, Number.NaN]) {
    expect(await readStill(path, index, frame, { ffmpeg, as: 'png' })).toBeNull();
    const window = openFrameWindow(path, index, { ffmpeg, kind: 'sharp' });
    await expectRefused(window.frame(frame), 'no-such-frame');
    await window.close();
  }
});

it('says that a clip is gone, or is another one now', async () => {
  const path = join(temporaryFolder(), 'swing.mp4');
  makeCodedClip(ffmpeg, 10, '30', [...H264, path]);
  const index = await readClipIndex(path, { ffmpeg });
  makeCodedClip(ffmpeg, 10, '25', [...H264, '-video_track_timescale', '600', path]);
  await expectRefused(readStill(path, index, 3, { ffmpeg, as: 'png' }), 'clip-changed');
  const gone = join(temporaryFolder(), 'gone.mp4');
  await expectRefused(readStill(gone, index, 3, { ffmpeg, as: 'png' }), 'file-not-found');
  const window = openFrameWindow(gone, index, { ffmpeg, kind: 'proxy' });
  await expectRefused(window.frame(3), 'file-not-found');
  await window.close();
});

it('can be cancelled, and leaves nothing running', async () => {
  const path = join(temporaryFolder(), 'swing.mp4');
  makeCodedClip(ffmpeg, 60, '30', [...H264, path]);
  const index = await readClipIndex(path, { ffmpeg });
  const signal = AbortSignal.abort();
  await expectRefused(readClipIndex(path, { ffmpeg, signal, verify: true }), 'cancelled');
  await expectRefused(readStill(path, index, 30, { ffmpeg, signal, as: 'png' }), 'cancelled');
  expect(runningCount()).toBe(0);
});
