import { copyFileSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { afterAll, describe, expect, it } from 'vitest';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { runningCount } from '../../core/video/process/run-ffmpeg.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import { makeCodedClip } from '../support/coded-clip.ts';
import { ILL_CLIPS } from '../support/ill-clips.ts';
import {
  CLIP_SHA,
  buildCopy,
  buildUntil,
  changedPasses,
  numbers,
  plainClip,
  timesOf,
} from '../support/proxy-builds.ts';
import { proxyCodes } from '../support/proxy-pictures.ts';
import { sized } from '../support/sized.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

const ffmpeg = await findFfmpeg();
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];

afterAll(() => {
  expect(runningCount()).toBe(0);
});

describe('a proxy that is gone on with', () => {
  it('enters the clip at a key picture, or begins at the start where the decoder complains of that', async () => {
    const folder = temporaryFolder();
    const log = join(folder, 'log');
    const wrapper = changedPasses(ffmpeg, [`case "$*" in *" -ss "*) echo entered;; *) echo start;; esac >> '${log}'`]);
    for (const [file, passes] of [
      ['constant.mp4', ['entered']],
      ['open-hevc.mp4', ['entered']],
      ['open-h264.mp4', ['entered', 'start']],
      ['times.avi', ['start']],
    ] as const) {
      const path = join(folder, file);
      ILL_CLIPS.find((ill) => ill.file === file)?.make(ffmpeg, path, join(folder, 'scratch'));
      const index = await readClipIndex(path, { ffmpeg });
      const at = join(folder, `copies-${file}`);
      await buildUntil(at, { path, ffmpeg }, index, 40);
      writeFileSync(log, '');
      const { copy, result } = await buildCopy(at, { path, ffmpeg: wrapper }, index);
      const began = readFileSync(log, 'utf8').trim().split('\n');
      expect({ file, began, result }).toEqual({
        ...{ file, began: passes },
        result: { delivered: timesOf(index), errors: false },
      });
      await copy.release();
    }
  });

  it('takes no picture from a decoder that complained on entering', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, 60);
    const decoy = join(temporaryFolder(), 'decoy.mp4');
    makeCodedClip(ffmpeg, 60, '30', ['-vf', 'hflip', ...H264, decoy]);
    await buildUntil(folder, { path, ffmpeg }, index, 30);
    // Complains, and then delivers pictures that are wrong, though their times are right.
    const wrapper = changedPasses(ffmpeg, [
      'case "$*" in *" -ss "*)',
      'echo "[h264 @ 0x5581] [error] reference picture missing during reorder" >&2; sleep 0.2',
      `for word do shift; case "$word" in file:*) word='file:${decoy}';; esac; set -- "$@" "$word"; done`,
      ';; esac',
    ]);
    const { copy, result } = await buildCopy(folder, { path, ffmpeg: wrapper }, index);
    expect(result).toEqual({ delivered: times, errors: false });
    expect(await proxyCodes(ffmpeg, copy, times)).toEqual(numbers(60));
    await copy.release();
  });

  it('leaves no gap where a decoder began too late', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, 60);
    await buildUntil(folder, { path, ffmpeg }, index, 30);
    const wrapper = changedPasses(ffmpeg, [
      'for word do shift; [ "$before" = -ss ] && word=1.6; before=$word; set -- "$@" "$word"; done',
    ]);
    const { copy, result } = await buildCopy(folder, { path, ffmpeg: wrapper }, index);
    expect(result).toEqual({ delivered: times, errors: false });
    expect(await proxyCodes(ffmpeg, copy, times)).toEqual(numbers(60));
    await copy.release();
  });
});

describe('a clip with damage', () => {
  it('gives what can be decoded, the same whether in one go or in pieces, and says that there were errors', async () => {
    const { folder, path, times } = await plainClip(ffmpeg, 120);
    const bytes = readFileSync(path);
    // Within the pictures; the tables stand behind them.
    for (let at = Math.floor(bytes.length * 0.4); at < bytes.length * 0.45; at += 3) bytes.writeUInt8(0xa5, at);
    writeFileSync(path, bytes);
    const index = await readClipIndex(path, { ffmpeg, verify: true });
    const whole = await buildCopy(join(folder, 'whole'), { path, ffmpeg }, index);
    expect(whole.result).toEqual({ delivered: timesOf(index), errors: true });
    expect(times).toEqual(expect.arrayContaining(timesOf(index)));
    await whole.copy.release();
    // Before the damage, amid it and behind it.
    for (const stopAt of sized([5, 50, 100], [5, 30, 50, 70, 100])) {
      const pieces = join(folder, `pieces-${stopAt}`);
      await buildUntil(pieces, { path, ffmpeg }, index, stopAt);
      const { copy, result } = await buildCopy(pieces, { path, ffmpeg }, index);
      expect(result).toEqual(whole.result);
      await copy.release();
    }
  });

  it('of which nothing can be decoded is refused, as is anything that is no clip', async () => {
    const { folder, path, index } = await plainClip(ffmpeg, 10);
    const bytes = readFileSync(path);
    bytes.fill(0, bytes.indexOf('mdat') + 4, bytes.indexOf('moov') - 4);
    const blank = join(temporaryFolder(), 'blank.mp4');
    writeFileSync(blank, bytes);
    await expectRefused(
      buildCopy(folder, { path: blank, ffmpeg }, index),
      'clip-damaged',
      /No frame of .* can be decoded/,
    );
    await expectRefused(
      buildCopy(folder, { path: join(temporaryFolder(), 'gone.mp4'), ffmpeg }, index),
      'file-not-found',
    );
    writeFileSync(blank, '');
    await expectRefused(buildCopy(folder, { path: blank, ffmpeg }, index), 'file-empty');
    const other = { ...index, timebase: { num: 1, den: 7 } };
    await expectRefused(buildCopy(join(folder, 'other'), { path, ffmpeg }, other), 'clip-changed');
  });

  it('that changes while it is read is not taken for a damaged one', async () => {
    const { folder, path, index } = await plainClip(ffmpeg, 400);
    const original = join(temporaryFolder(), 'original.mp4');
    copyFileSync(path, original);
    const onFrame = (written: number): void => {
      if (written === 20) truncateSync(path, Math.floor(statSync(path).size / 3));
    };
    await expectRefused(
      buildCopy(folder, { path, ffmpeg }, index, { onFrame, giveWay: () => delay(2) }),
      'clip-changed',
      /is not the clip it was/,
    );
    copyFileSync(original, path);
    const { copy, result } = await buildCopy(folder, { path, ffmpeg }, index);
    expect(result).toEqual({ delivered: timesOf(index), errors: false });
    expect(await proxyCodes(ffmpeg, copy, timesOf(index))).toEqual(numbers(400));
    await copy.release();
  });
});

describe('an ffmpeg that', () => {
  it('is killed leaves what it made, and the clip is not called damaged', async () => {
    const { folder, path, index, times } = await plainClip(ffmpeg, 200);
    const wrapper = changedPasses(ffmpeg, ['"$real" "$@" | head -c 150000; kill -9 $$']);
    const source = { path, ffmpeg: wrapper };
    await expectRefused(buildCopy(folder, source, index), 'ffmpeg-failed', /stopped in the middle/);
    const copy = await new ProxyStore(folder).open({ sha256: CLIP_SHA, index });
    expect(copy.count).toBeGreaterThan(0);
    expect(await proxyCodes(ffmpeg, copy, times.slice(0, copy.count))).toEqual(numbers(copy.count));
    await copy.release();
    const again = await buildCopy(folder, { path, ffmpeg }, index);
    expect(again.result).toEqual({ delivered: times, errors: false });
    await again.copy.release();
  });

  it('cannot make the pictures, or is not there, is told', async () => {
    const { folder, path, index } = await plainClip(ffmpeg, 60);
    await buildUntil(folder, { path, ffmpeg }, index, 40);
    const wrapper = changedPasses(ffmpeg, [`echo "Unknown encoder 'libx264'" >&2; exit 1`]);
    const source = { path, ffmpeg: wrapper };
    await expectRefused(buildCopy(folder, source, index), 'ffmpeg-failed', /cannot be used/);
    rmSync(wrapper.path);
    await expectRefused(buildCopy(folder, source, index), 'ffmpeg-missing');
    const { copy, result } = await buildCopy(folder, { path, ffmpeg }, index);
    expect(result).toEqual({ delivered: timesOf(index), errors: false });
    await copy.release();
  });
});
