import { MADE_AHEAD } from '../../core/model/read-ahead.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { createFrameCache } from '../../core/video/decode/frame-cache.ts';
import { openFrameWindow } from '../../core/video/decode/frame-window.ts';
import type { FrameWindow, FrameWindowOptions, WindowPicture } from '../../core/video/decode/frame-window.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { seeded } from '../support/seeded.ts';
import { expectRefused } from '../support/trouble.ts';
import { codesOfAll } from '../support/window-pixels.ts';

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

const ROOM = 256 * 1024 * 1024;
type Kind = FrameWindowOptions['kind'];

function open(kind: Kind, cache = createFrameCache(ROOM), more: Pick<FrameWindowOptions, 'idleMs'> = {}): FrameWindow {
  const window = openFrameWindow(path, index, { ffmpeg, kind, cache, ...more });
  onTestFinished(async () => {
    await window.close();
    expect(runningCount()).toBe(0);
  });
  return window;
}

const codeOf = async (picture: Promise<WindowPicture>): Promise<number> => codesOfAll(ffmpeg, [await picture])[0] ?? -1;
/** Settles before any process could answer. */
const atOnce = async (picture: Promise<WindowPicture>): Promise<boolean> =>
  Promise.race([picture.then(() => true), new Promise<boolean>((resolve) => setImmediate(() => resolve(false)))]);

describe.each(['proxy', 'sharp'] as const)('%s pictures', (kind) => {
  it('has the neighbours of a frame ready, on both sides', async () => {
    const window = open(kind);
    expect(await codeOf(window.frame(200))).toBe(200);
    await new Promise((resolve) => setTimeout(resolve, 300 + MADE_AHEAD[kind].aheadAfterMs));
    // The page fetches two sharp ones each way by itself.
    const steps = kind === 'proxy' ? [201, 202, 203, 202, 201, 200, 199, 198, 197] : [201, 202, 201, 200, 199, 198];
    const pictures: WindowPicture[] = [];
    for (const frame of steps) {
      const picture = window.frame(frame);
      expect(await atOnce(picture)).toBe(true);
      pictures.push(await picture);
    }
    expect(codesOfAll(ffmpeg, pictures)).toEqual(steps);
  });

  it('gives the right frame at any jump', async () => {
    const window = open(kind, createFrameCache(300_000));
    const random = seeded(7);
    const frames = Array.from({ length: 25 }, () => Math.floor(random() * FRAMES));
    const pictures: WindowPicture[] = [];
    for (const frame of frames) pictures.push(await window.frame(frame));
    expect(codesOfAll(ffmpeg, pictures)).toEqual(frames);
  });

  it('goes back over the whole clip a step at a time', async () => {
    const window = open(kind);
    const pictures: WindowPicture[] = [];
    for (let frame = FRAMES - 1; frame >= 0; frame -= 1) pictures.unshift(await window.frame(frame));
    expect(codesOfAll(ffmpeg, pictures)).toEqual([...pictures.keys()]);
  });

  it('serves the newest of many requests', async () => {
    const window = open(kind);
    const requests = [10, 300, 60, 350, 120].map((frame) => window.frame(frame));
    const outcomes = await Promise.allSettled(requests);
    expect(outcomes.at(-1)?.status).toBe('fulfilled');
    for (const [place, outcome] of outcomes.entries())
      if (outcome.status === 'rejected') expect(outcome.reason).toMatchObject({ code: 'cancelled' });
      else expect(codesOfAll(ffmpeg, [outcome.value])).toEqual([[10, 300, 60, 350, 120][place]]);
  });

  it('serves several requests within reach of one another', async () => {
    const window = open(kind);
    const frames = [150, 151, 149, 153];
    expect(codesOfAll(ffmpeg, await Promise.all(frames.map((frame) => window.frame(frame))))).toEqual(frames);
  });

  it('drops a request that is withdrawn and goes on with the next', async () => {
    const window = open(kind);
    const control = new AbortController();
    const withdrawn = window.frame(300, { signal: control.signal });
    control.abort();
    await expectRefused(withdrawn, 'cancelled');
    await expectRefused(window.frame(5, { signal: control.signal }), 'cancelled');
    expect(await codeOf(window.frame(301))).toBe(301);
  });

  it('stops what is on its way to a frame that nobody wants any more', async () => {
    const window = open(kind);
    const control = new AbortController();
    const withdrawn = window.frame(399, { signal: control.signal });
    await expect.poll(() => runningCount()).toBeGreaterThan(0);
    control.abort();
    await expectRefused(withdrawn, 'cancelled');
    await expect.poll(() => runningCount(), { interval: 20 }).toBe(0);
    expect(await codeOf(window.frame(398))).toBe(398);
  });

  it('goes on for the next frame when one is withdrawn for it', async () => {
    const window = open(kind);
    const control = new AbortController();
    const withdrawn = window.frame(200, { signal: control.signal });
    control.abort();
    const next = window.frame(201);
    await expectRefused(withdrawn, 'cancelled');
    expect(await codeOf(next)).toBe(201);
  });

  it('ends what is running when it is closed, and takes no more requests', async () => {
    const window = open(kind);
    const pending = expectRefused(window.frame(399), 'cancelled');
    await window.close();
    await pending;
    expect(runningCount()).toBe(0);
    await expectRefused(window.frame(0), 'cancelled');
    await window.close();
  });

  it('ends the process that stands ready when nobody asks for long', async () => {
    // 1 ms: over long before any picture is there, as it would be for one that takes longer than the whole idle time.
    for (const idleMs of [150, 1]) {
      const window = open(kind, createFrameCache(ROOM), { idleMs });
      expect(await codeOf(window.frame(100))).toBe(100);
      await expect.poll(() => runningCount(), { timeout: 10_000 }).toBe(0);
      expect(await codeOf(window.frame(250))).toBe(250);
      await window.close();
    }
  });

  it('stays within the memory it is given', async () => {
    const cache = createFrameCache(200_000);
    const window = open(kind, cache);
    for (let frame = 0; frame < FRAMES; frame += 1) {
      await window.frame(frame);
      expect(cache.calculatedSize).toBeLessThanOrEqual(200_000);
    }
  });
});
