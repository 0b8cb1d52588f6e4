import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { afterAll, describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import { CLIP_SHA, NEVER, buildCopy, numbers, plainClip } from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();
/** For a machine that is busy with other things. */
const PATIENCE_MS = 30_000;

afterAll(() => {
  expect(runningCount()).toBe(0);
});

describe('a proxy that is being made', () => {
  it('is read as it grows, by all who have it open, and each picture stays the same', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, 150);
    const copies = new ProxyStore(folder);
    const [copy, other] = [
      await copies.open({ sha256: CLIP_SHA, index }),
      await copies.open({ sha256: CLIP_SHA, index }),
    ];
    const early: (Promise<Uint8Array | null> | undefined)[] = [];
    const counts: number[] = [];
    const onFrame = (written: number, total: number): void => {
      counts.push(written);
      expect([total, copy.count, other.count, copy.complete]).toEqual([150, written, written, false]);
      const [at, ahead] = [times[written - 1] ?? -1, times[written] ?? -1];
      expect([other.has(at), other.has(ahead)]).toEqual([true, false]);
      early.push(other.read(at));
    };
    const result = await copies.build(copy, { path, ffmpeg }, { signal: NEVER, onFrame });
    expect(counts).toEqual(numbers(151).slice(1));
    expect(other.result).toEqual(result);
    for (const [place, pts] of times.entries()) expect(await early[place]).toEqual(await copy.read(pts));
    expect(await proxyCodes(ffmpeg, other, times)).toEqual(numbers(150));
    expect(await copies.usedBytes()).toBeGreaterThan(copy.bytes);
    await copy.release();
    expect([copy.has(times[0] ?? -1), await copy.read(times[0] ?? -1)]).toEqual([false, null]);
    expect(await other.read(times[0] ?? -1)).not.toBe(null);
    await other.release();
    await other.release();
  });

  it('is made once, however often that is asked for', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, 60);
    const copies = new ProxyStore(folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index });
    let frames = 0;
    const run = { signal: NEVER, onFrame: () => (frames += 1) };
    const results = await Promise.all([1, 2, 3].map(() => copies.build(copy, { path, ffmpeg }, run)));
    expect(results).toEqual(Array(3).fill({ delivered: times, errors: false }));
    expect(frames).toBe(60);
    expect(await copies.build(copy, { path: 'no longer needed', ffmpeg }, run)).toEqual(results[0]);
    await copy.release();
    await expect(copies.build(copy, { path, ffmpeg }, run)).rejects.toThrow('only a copy that is open here');
  });

  it('stands still for as long as it is told to give way', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, 300);
    let [open, written] = [(): void => undefined, 0];
    let gate: Promise<void> = Promise.resolve();
    const giveWay = async (): Promise<void> => {
      await delay(2);
      await gate;
    };
    const run = { giveWay, onFrame: (count: number) => (written = count) };
    const building = buildCopy(folder, { path, ffmpeg }, index, run);
    await expect.poll(() => written, { timeout: PATIENCE_MS }).toBeGreaterThan(10);
    gate = new Promise((resolve) => (open = resolve));
    await delay(50);
    const before = written;
    await delay(300);
    expect(written).toBe(before);
    expect(before).toBeLessThan(300);
    gate = Promise.resolve();
    open();
    const { copy, result } = await building;
    expect(result.delivered).toEqual(times);
    await copy.release();
  });

  it('is given up at once when cancelled, also while it gives way and before it began', async () => {
    const { folder, path, index } = await plainClip(ffmpeg, 10);
    const stop = new AbortController();
    const giveWay = (): Promise<void> => new Promise(() => undefined);
    const building = expectRefused(
      buildCopy(folder, { path, ffmpeg }, index, { signal: stop.signal, giveWay }),
      'cancelled',
    );
    await delay(200);
    stop.abort();
    await building;
    expect(runningCount()).toBe(0);
    await expectRefused(buildCopy(folder, { path, ffmpeg }, index, { signal: stop.signal }), 'cancelled');
    const { copy, result } = await buildCopy(folder, { path, ffmpeg }, index);
    expect(result.delivered).toHaveLength(10);
    await copy.release();
  });

  it('goes on when it is let go', async () => {
    const { folder, path, index } = await plainClip(ffmpeg, 60);
    const copies = new ProxyStore(folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index });
    const building = copies.build(copy, { path, ffmpeg }, { signal: NEVER });
    await copy.release();
    expect((await building).delivered).toHaveLength(60);
    const again = await copies.open({ sha256: CLIP_SHA, index });
    expect(again.complete).toBe(true);
    await again.release();
  });

  it('is left alone when another process has taken it over', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, 150);
    const copies = new ProxyStore(folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index });
    const lock = join(folder, `${CLIP_SHA}.lock`);
    let taken = false;
    const onFrame = (written: number): void => {
      // The process that started this one runs, and is taken for the one that writes.
      if (written === 40 && !taken) writeFileSync(lock, `${process.ppid} x`);
      taken ||= written === 40;
    };
    const building = copies.build(copy, { path, ffmpeg }, { signal: NEVER, onFrame, giveWay: () => delay(1) });
    await expect.poll(() => taken, { timeout: PATIENCE_MS }).toBe(true);
    const lines = (): number => readFileSync(join(folder, `${CLIP_SHA}.frames`), 'latin1').split('\n').length - 1;
    await expect.poll(() => copy.count, { timeout: PATIENCE_MS }).toBe(32);
    await delay(700);
    expect([copy.count, lines()]).toEqual([32, 33]);
    rmSync(lock);
    expect(await building).toEqual({ delivered: times, errors: false });
    expect(await proxyCodes(ffmpeg, copy, times)).toEqual(numbers(150));
    await copy.release();
  });
});
