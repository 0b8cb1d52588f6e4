import { readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import type { LookedAt } from '../../core/video/proxy/copy-order.ts';
import { isDamaged } from '../../core/time/damaged-spans.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import {
  CLIP_SHA,
  NEVER,
  buildCopy,
  changedPasses,
  expectWhole,
  numbers,
  plainClip,
  timesOf,
} from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();
/** Key pictures every 24 frames, so parts of 48. */
const FRAMES = 240;

afterAll(() => {
  expect(runningCount()).toBe(0);
});

/** The frames of a clip in the order in which the list on the disk has their pictures. */
function orderMade(folder: string, index: ClipIndex): number[] {
  const placeOf = new Map(index.frames.map(({ pts }, place) => [pts, place]));
  return readFileSync(join(folder, `${CLIP_SHA}.frames`), 'latin1')
    .split('\n')
    .flatMap((line) => /^(-?\d+) \d+ [0-9a-f]{8} /.exec(line)?.[1] ?? [])
    .map((pts) => placeOf.get(Number(pts)) ?? -1);
}

const span = (from: number, to: number): number[] => numbers(to).slice(from);

describe('a copy is made', () => {
  it('of what is looked at first: the part of the pointer, those of named frames, between, ahead, behind', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, FRAMES);
    const looked: LookedAt = { pointer: 50, named: [200] };
    const { copy } = await buildCopy(folder, { path, ffmpeg }, index, { lookedAt: () => looked });
    const order = [...span(48, 96), ...span(192, 240), ...span(96, 192), ...span(0, 48)];
    expect(orderMade(folder, index)).toEqual(order);
    await expectWhole(ffmpeg, copy, times);
    await copy.release();
  });

  it('where the pointer goes meanwhile, and comes back to what it left', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, FRAMES);
    let looked: LookedAt = { pointer: 0, named: [] };
    const onFrame = (written: number): void => {
      if (written === 20) looked = { pointer: 200, named: [] };
      if (written === 60) looked = { pointer: 110, named: [] };
    };
    const { copy } = await buildCopy(folder, { path, ffmpeg }, index, { lookedAt: () => looked, onFrame });
    const order = orderMade(folder, index);
    expect(order.toSorted((a, b) => a - b)).toEqual(numbers(FRAMES));
    expect(order.slice(0, 20)).toEqual(span(0, 20));
    expect(order.slice(20, 60)).toEqual(span(192, 232));
    expect(order.slice(60, 100)).toEqual(span(96, 136));
    await expectWhole(ffmpeg, copy, times);
    await copy.release();
  });

  it('on, wherever it was ended: what is there stays and is made once, and no frame is wrong', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, FRAMES);
    const ends = [30, 70, 71, 150, 239];
    for (const [round, end] of ends.entries()) {
      const stop = new AbortController();
      const looked: LookedAt = { pointer: [100, 230, 0, 60, 190][round] ?? 0, named: [130] };
      const onFrame = (written: number): void => {
        if (written >= end) stop.abort();
      };
      const run = { signal: stop.signal, onFrame, lookedAt: () => looked };
      await expectRefused(buildCopy(folder, { path, ffmpeg }, index, run), 'cancelled');
      const copy = await new ProxyStore(folder).open({ sha256: CLIP_SHA, index });
      const there = index.frames.flatMap(({ pts }, frame) => (copy.has(pts) ? [frame] : []));
      expect([there.length, copy.complete]).toEqual([end, false]);
      const codes = await proxyCodes(
        ffmpeg,
        copy,
        there.map((frame) => times[frame] ?? 0),
      );
      expect(codes).toEqual(there);
      await copy.release();
    }
    const { copy } = await buildCopy(folder, { path, ffmpeg }, index);
    const order = orderMade(folder, index);
    expect(new Set(order).size).toBe(order.length);
    await expectWhole(ffmpeg, copy, times);
    await copy.release();
  });

  it('on after its list or its pictures were cut off amid a part', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, FRAMES);
    const looked: LookedAt = { pointer: 100, named: [] };
    for (const [file, part] of [
      ['scrub', 0.6],
      ['frames', 0.7],
    ] as const) {
      const stop = new AbortController();
      const onFrame = (written: number): void => {
        if (written >= 200) stop.abort();
      };
      const run = { signal: stop.signal, onFrame, lookedAt: () => looked };
      await expectRefused(buildCopy(folder, { path, ffmpeg }, index, run), 'cancelled');
      const cut = join(folder, `${CLIP_SHA}.${file}`);
      truncateSync(cut, Math.floor(statSync(cut).size * part));
    }
    const { copy } = await buildCopy(folder, { path, ffmpeg }, index, { lookedAt: () => looked });
    await expectWhole(ffmpeg, copy, times);
    await copy.release();
  });

  it('anew from the start where a part is not what the table says, though other parts were there', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, FRAMES);
    // A table that knows a frame too few: the middle is made before that is found out.
    const short = { ...index, frames: index.frames.filter((_, frame) => frame !== 20) };
    const looked: LookedAt = { pointer: 100, named: [] };
    const { copy, result } = await buildCopy(folder, { path, ffmpeg }, short, { lookedAt: () => looked });
    expect(orderMade(folder, index)).toEqual(numbers(FRAMES));
    expect(result).toEqual({ delivered: times, errors: false });
    await expectWhole(ffmpeg, copy, times);
    await copy.release();
  });

  it('whole from the start of a clip with damage, whatever is looked at, the same as in one go', async () => {
    const { path } = await plainClip(ffmpeg, FRAMES);
    const bytes = readFileSync(path);
    // Within the pictures; the tables stand behind them.
    for (let at = Math.floor(bytes.length * 0.3); at < bytes.length * 0.34; at += 3) bytes.writeUInt8(0xa5, at);
    writeFileSync(path, bytes);
    const index = await readClipIndex(path, { ffmpeg, verify: true });
    const plain = await buildCopy(temporaryFolder(), { path, ffmpeg }, index);
    expect(plain.result.errors).toBe(true);
    const sound = index.frames.flatMap(({ pts }, frame) => (isDamaged(index, frame) ? [] : [pts]));
    expect(sound.length).toBeGreaterThan(FRAMES / 2);
    const codes = await proxyCodes(ffmpeg, plain.copy, sound);
    for (const pointer of [0, 80, 220]) {
      const looked: LookedAt = { pointer, named: [] };
      const { copy, result } = await buildCopy(temporaryFolder(), { path, ffmpeg }, index, { lookedAt: () => looked });
      expect(result).toEqual(plain.result);
      expect(await proxyCodes(ffmpeg, copy, sound)).toEqual(codes);
      await copy.release();
    }
    await plain.copy.release();
  });

  it('right of clips with open groups, whose first pictures need the group before', async () => {
    for (const file of ['open-hevc.mp4', 'open-h264.mp4']) {
      const folder = temporaryFolder();
      const path = join(folder, file);
      ILL_CLIPS.find((ill) => ill.file === file)?.make(ffmpeg, path, join(folder, 'scratch'));
      const index = await readClipIndex(path, { ffmpeg });
      const looked: LookedAt = { pointer: index.frames.length - 1, named: [60] };
      const whole = await buildCopy(join(folder, 'plain'), { path, ffmpeg }, index);
      const parts = await buildCopy(join(folder, 'parts'), { path, ffmpeg }, index, { lookedAt: () => looked });
      expect(parts.result).toEqual(whole.result);
      const times = timesOf(index);
      expect(await proxyCodes(ffmpeg, parts.copy, times)).toEqual(await proxyCodes(ffmpeg, whole.copy, times));
      await whole.copy.release();
      await parts.copy.release();
    }
  });

  it('not at all where ffmpeg fails for another reason, and what was there stays', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, FRAMES);
    const stop = new AbortController();
    const looked: LookedAt = { pointer: 100, named: [] };
    const onFrame = (written: number): void => {
      if (written >= 30) stop.abort();
    };
    const run = { signal: stop.signal, onFrame, lookedAt: () => looked };
    await expectRefused(buildCopy(folder, { path, ffmpeg }, index, run), 'cancelled');
    const killed = changedPasses(ffmpeg, ['kill -9 $$']);
    await expectRefused(
      buildCopy(folder, { path, ffmpeg: killed }, index, { lookedAt: () => looked }),
      'ffmpeg-failed',
    );
    const copies = new ProxyStore(folder);
    const copy = await copies.open({ sha256: CLIP_SHA, index });
    expect(copy.count).toBe(30);
    await copies.build(copy, { path, ffmpeg }, { signal: NEVER });
    await expectWhole(ffmpeg, copy, times);
    await copy.release();
  });
});
