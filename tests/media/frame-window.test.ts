import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { findFfmpeg } from '../../core/video/find-ffmpeg.ts';
import { FrameCache } from '../../core/video/frame-cache.ts';
import { openFrameWindow } from '../../core/video/frame-window.ts';
import type { FrameWindow } from '../../core/video/frame-window.ts';
import { readClipIndex } from '../../core/video/read-clip-index.ts';
import { runningCount } from '../../core/video/run-ffmpeg.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { readCode } from '../support/coded-picture.ts';
import { seeded } from '../support/seeded.ts';
import { pixelsOf } from '../support/still-pixels.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();
const FRAMES = 400;
const folder = mkdtempSync(join(tmpdir(), 'baybook-test-'));
const path = join(folder, 'long.mp4');
let index: ClipIndex;

beforeAll(async () => {
  makeCodedClip(ffmpeg, FRAMES, '120', ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', path]);
  index = await readClipIndex(path, { ffmpeg });
});

afterAll(() => {
  rmSync(folder, { recursive: true });
});

function open(cache = new FrameCache()): FrameWindow {
  const window = openFrameWindow(path, index, { ffmpeg, cache });
  onTestFinished(async () => {
    await window.close();
    expect(runningCount()).toBe(0);
  });
  return window;
}

const codeOf = async (picture: Promise<Uint8Array>): Promise<number> => readCode(await pixelsOf(await picture));
/** Settles before any process could answer. */
const atOnce = async (picture: Promise<Uint8Array>): Promise<boolean> =>
  Promise.race([picture.then(() => true), new Promise<boolean>((resolve) => setImmediate(() => resolve(false)))]);

it('has the neighbours of a frame ready, on both sides', async () => {
  const window = open();
  expect(await codeOf(window.quick(200))).toBe(200);
  await new Promise((resolve) => setTimeout(resolve, 300));
  for (const frame of [201, 202, 203, 202, 201, 200, 199, 198, 197]) {
    const picture = window.quick(frame);
    expect(await atOnce(picture)).toBe(true);
    expect(await codeOf(picture)).toBe(frame);
  }
});

it('gives the right frame at any jump', async () => {
  const window = open(new FrameCache(300_000));
  const random = seeded(7);
  for (let jump = 0; jump < 25; jump += 1) {
    const frame = Math.floor(random() * FRAMES);
    expect(await codeOf(window.quick(frame))).toBe(frame);
  }
});

it('goes back over the whole clip a step at a time', async () => {
  const window = open();
  for (let frame = FRAMES - 1; frame >= 0; frame -= 1) expect((await window.quick(frame)).length).toBeGreaterThan(0);
  for (const frame of [0, 77, 213, 399]) expect(await codeOf(window.quick(frame))).toBe(frame);
});

it('serves the newest of many requests', async () => {
  const window = open();
  const requests = [10, 300, 60, 350, 120].map((frame) => window.quick(frame));
  const outcomes = await Promise.allSettled(requests);
  expect(outcomes.at(-1)?.status).toBe('fulfilled');
  for (const [place, outcome] of outcomes.entries())
    if (outcome.status === 'rejected') expect(outcome.reason).toMatchObject({ code: 'cancelled' });
    else expect(readCode(await pixelsOf(outcome.value))).toBe([10, 300, 60, 350, 120][place]);
});

it('serves several requests within reach of one another', async () => {
  const window = open();
  const frames = [150, 151, 149, 160];
  expect(await Promise.all(frames.map(async (frame) => codeOf(window.quick(frame))))).toEqual(frames);
});

it('drops a request that is withdrawn and goes on with the next', async () => {
  const window = open();
  const control = new AbortController();
  const withdrawn = window.quick(300, { signal: control.signal });
  control.abort();
  await expectRefused(withdrawn, 'cancelled');
  await expectRefused(window.quick(5, { signal: control.signal }), 'cancelled');
  expect(await codeOf(window.quick(301))).toBe(301);
});

it('ends what is running when it is closed, and takes no more requests', async () => {
  const window = open();
  const pending = expectRefused(window.quick(399), 'cancelled');
  await window.close();
  await pending;
  expect(runningCount()).toBe(0);
  await expectRefused(window.quick(0), 'cancelled');
  await window.close();
});

it('ends the process that stands ready when nobody asks for long', async () => {
  const window = openFrameWindow(path, index, { ffmpeg, cache: new FrameCache(), idleMs: 150 });
  expect(await codeOf(window.quick(100))).toBe(100);
  await expect.poll(() => runningCount(), { timeout: 3000 }).toBe(0);
  expect(await codeOf(window.quick(250))).toBe(250);
  await window.close();
});

it('stays within the memory it is given', async () => {
  const cache = new FrameCache(200_000);
  const window = open(cache);
  for (let frame = 0; frame < FRAMES; frame += 1) {
    await window.quick(frame);
    expect(cache.bytes).toBeLessThanOrEqual(200_000);
  }
});
