import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import { drawn } from '../support/drawn.ts';
import { CLIP_SHA, NEVER, expectWhole, numbers, plainClip } from '../support/proxy-builds.ts';
import type { PlainClip } from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { lasting } from '../support/sized.ts';

const ffmpeg = await findFfmpeg();
/** For a machine that is busy with other things. */
const PATIENCE = { timeout: lasting(30_000) };

afterAll(() => {
  expect(runningCount()).toBe(0);
});

/** Starts another process that builds the copy, with its lines as they come. */
function startBuilder(
  { folder, path }: PlainClip,
  pauseMs: number,
): { child: ChildProcess; lines: AsyncIterator<string> } {
  const script = join(import.meta.dirname, 'children', 'build-proxy.ts');
  const child = spawn(process.execPath, [script, folder, CLIP_SHA, path, String(pauseMs)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return { child, lines: createInterface({ input: child.stdout })[Symbol.asyncIterator]() };
}

async function waitForCount(lines: AsyncIterator<string>, count: number): Promise<void> {
  for (;;) {
    const { done, value } = await lines.next();
    if (done === true) throw new Error(`ended before there were ${count} pictures`);
    if (Number(value) >= count) return;
  }
}

async function lastLine(lines: AsyncIterator<string>): Promise<unknown> {
  let last = '';
  for (;;) {
    const { done, value } = await lines.next();
    if (done === true) return JSON.parse(last);
    last = value;
  }
}

describe('a process that is killed while it makes a copy', () => {
  it.each(drawn([1, 33, 70, 117, 120], 0, 3))('after %i pictures leaves one that is gone on with', async (count) => {
    const clip = await plainClip(ffmpeg, 120);
    const { child, lines } = startBuilder(clip, 3);
    await waitForCount(lines, count);
    child.kill('SIGKILL');
    await once(child, 'close');

    const copies = new ProxyStore(clip.folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index: clip.index });
    // What is written in one go may be lost, no more.
    expect(copy.count).toBeGreaterThanOrEqual(count - 32);
    expect(await proxyCodes(ffmpeg, copy, clip.times.slice(0, copy.count))).toEqual(numbers(copy.count));
    const written: number[] = [];
    const run = { signal: NEVER, onFrame: (now: number) => written.push(now) };
    const before = copy.count;
    await copies.build(copy, { path: clip.path, ffmpeg }, run);
    if (before < 120) expect(written[0]).toBe(before + 1);
    await expectWhole(ffmpeg, copy, clip.times);
    await copy.release();
    expect(readdirSync(clip.folder).sort()).toEqual([`${CLIP_SHA}.frames`, `${CLIP_SHA}.scrub`]);
  });

  it('again and again, gets there in the end', async () => {
    const clip = await plainClip(ffmpeg, 400);
    let attempts = 0;
    for (let goal = 60; goal < 400; goal += 60) {
      const { child, lines } = startBuilder(clip, 0);
      await waitForCount(lines, goal).catch(() => undefined);
      child.kill('SIGKILL');
      await once(child, 'close');
      attempts += 1;
    }
    expect(attempts).toBe(6);
    const copies = new ProxyStore(clip.folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index: clip.index });
    expect(copy.count).toBeGreaterThan(300);
    await copies.build(copy, { path: clip.path, ffmpeg }, { signal: NEVER });
    await expectWhole(ffmpeg, copy, clip.times);
    await copy.release();
  });
});

describe('two processes with one folder', () => {
  it('make a copy once and both have it', async () => {
    const clip = await plainClip(ffmpeg, 150);
    const builders = [startBuilder(clip, 2), startBuilder(clip, 2), startBuilder(clip, 2)];
    const results = await Promise.all(builders.map(({ lines }) => lastLine(lines)));
    expect(results).toEqual(Array(3).fill({ delivered: clip.times, errors: false }));
    const copy = await new ProxyStore(clip.folder).open({ sha256: CLIP_SHA, index: clip.index });
    await expectWhole(ffmpeg, copy, clip.times);
    await copy.release();
  });

  it('read what the other one makes, and take over when it is gone', async () => {
    const clip = await plainClip(ffmpeg, 200);
    const { child, lines } = startBuilder(clip, 20);
    await waitForCount(lines, 40);
    const copies = new ProxyStore(clip.folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index: clip.index });
    expect(copy.count).toBeGreaterThanOrEqual(32);
    const written: number[] = [];
    const run = { signal: NEVER, onFrame: (now: number) => written.push(now) };
    const building = copies.build(copy, { path: clip.path, ffmpeg }, run);
    await waitForCount(lines, 110);
    await expect.poll(() => copy.count, PATIENCE).toBeGreaterThanOrEqual(96);
    expect(copy.complete).toBe(false);
    expect(await proxyCodes(ffmpeg, copy, clip.times.slice(0, 96))).toEqual(numbers(96));
    // Neither deletes what the other one is writing.
    await copies.remove(CLIP_SHA);
    expect(existsSync(join(clip.folder, `${CLIP_SHA}.frames`))).toBe(true);
    child.kill('SIGKILL');
    await once(child, 'close');
    await building;
    expect(written.at(-1)).toBe(200);
    expect(written).toEqual(written.toSorted((a, b) => a - b));
    await expectWhole(ffmpeg, copy, clip.times);
    await copy.release();
  });

  it('leave a copy to the one that took it over', async () => {
    const clip = await plainClip(ffmpeg, 150);
    const { lines } = startBuilder(clip, 15);
    await waitForCount(lines, 40);
    // As after a long sleep of the machine: no sign of life of the other one for minutes, yet it goes on.
    const long = new Date(Date.now() - 10 * 60_000);
    utimesSync(join(clip.folder, `${CLIP_SHA}.lock`), long, long);
    const copies = new ProxyStore(clip.folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index: clip.index });
    await copies.build(copy, { path: clip.path, ffmpeg }, { signal: NEVER });
    await expectWhole(ffmpeg, copy, clip.times);
    expect(await lastLine(lines)).toEqual({ delivered: clip.times, errors: false });
    await copy.release();
    const again = await copies.open({ sha256: CLIP_SHA, index: clip.index });
    await expectWhole(ffmpeg, again, clip.times);
    await again.release();
  });
});
