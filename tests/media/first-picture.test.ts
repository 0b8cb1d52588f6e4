import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { loadImage } from '@napi-rs/canvas';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readFirstPicture } from '../../core/video/decode/first-picture.ts';
import { runFfmpeg } from '../../core/video/process/run-ffmpeg.ts';
import { expectThrown } from '../support/trouble.ts';

let folder: string;
let ffmpeg: Ffmpeg;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'baybook-first-'));
  ffmpeg = await findFfmpeg();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function make(name: string, args: readonly string[]): Promise<string> {
  const path = join(folder, name);
  const { end } = await runFfmpeg(ffmpeg, ['-v', 'error', ...args, path]);
  expect(end.exitCode).toBe(0);
  return path;
}

/** Red in the first frame, blue afterwards. */
const RED_THEN_BLUE = [
  '-f',
  'lavfi',
  '-i',
  "color=red:s=320x180:r=30:d=1,geq=lum='if(eq(N,0),81,41)':cb='if(eq(N,0),90,240)':cr='if(eq(N,0),240,110)'",
];

test('it is the first picture of the clip, as it is stored, small, with how it is turned', async () => {
  const stored = await make('stored.mp4', [...RED_THEN_BLUE, '-c:v', 'libx264', '-pix_fmt', 'yuv420p']);
  const turned = await make('turned.mov', ['-i', stored, '-c', 'copy', '-metadata:s:v:0', 'rotate=90']);
  const picture = await readFirstPicture(turned, { ffmpeg });
  if (picture === null) throw new Error('no picture');
  expect(picture.mirrored).toBe(false);
  expect([90, 270]).toContain(picture.turn);
  const image = await loadImage(Buffer.from(picture.data));
  expect([image.width, image.height]).toEqual([320, 180]);
  const { createCanvas } = await import('@napi-rs/canvas');
  const context = createCanvas(320, 180).getContext('2d');
  context.drawImage(image, 0, 0);
  const [red = 0, green = 0, blue = 0] = context.getImageData(160, 90, 1, 1).data;
  expect(red).toBeGreaterThan(200);
  expect(green).toBeLessThan(60);
  expect(blue).toBeLessThan(60);
});

test('a file that is none is refused as everywhere', async () => {
  const sound = await make('sound.mp4', ['-f', 'lavfi', '-i', 'sine=d=1', '-c:a', 'aac']);
  const failure = await readFirstPicture(sound, { ffmpeg }).catch((error: unknown) => error);
  expect(failure).toBeInstanceOf(Error);
  expectThrown(() => {
    throw failure;
  }, 'no-video');
});
