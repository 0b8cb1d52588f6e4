import { chmodSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import type { DecodePass } from '../../core/time/settle-index.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import type { ProxyBuild, ClipProxy, ProxySource } from '../../core/video/proxy/proxy-store.ts';
import { makeCodedClip } from './coded-clip.ts';
import { drawn } from './drawn.ts';
import { codesOfCopies, proxyCodes } from './proxy-pictures.ts';
import { temporaryFolder } from './temporary-folder.ts';
import { expectRefused } from './trouble.ts';

/** Stands for the content of every clip of a test that has only one. */
export const CLIP_SHA = 'c'.repeat(64);
export const NEVER = new AbortController().signal;
const H264 = ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '24'];

export const timesOf = (index: ClipIndex): number[] => index.frames.map(({ pts }) => pts);
/** 0 .. count - 1: the codes of a plain clip. */
export const numbers = (count: number): number[] => [...Array(count).keys()];

export interface PlainClip {
  /** An empty folder for copies. */
  readonly folder: string;
  readonly path: string;
  readonly index: ClipIndex;
  readonly times: readonly number[];
}

/** A clip of coded pictures, 30 a second, with a key picture every 24, its table and its pictures' times. */
export async function plainClip(ffmpeg: Ffmpeg, count: number, filter = 'null'): Promise<PlainClip> {
  const path = join(temporaryFolder(), 'plain.mp4');
  makeCodedClip(ffmpeg, count, '30', ['-vf', filter, ...H264, path]);
  const index = await readClipIndex(path, { ffmpeg });
  return { folder: join(temporaryFolder(), 'copies'), path, index, times: timesOf(index) };
}

/** Opens a copy, builds it, and hands it over; it is let go when the build is refused. */
export async function buildCopy(
  folder: string,
  source: ProxySource,
  index: ClipIndex,
  run: Partial<ProxyBuild> = {},
): Promise<{ readonly copy: ClipProxy; readonly result: DecodePass }> {
  const copies = new ProxyStore(folder);
  const copy = await copies.open({ sha256: CLIP_SHA, index });
  try {
    return { copy, result: await copies.build(copy, source, { signal: NEVER, ...run }) };
  } catch (error) {
    await copy.release();
    throw error;
  }
}

/** Cancels a build when so many pictures are there, and checks that they stay. One that comes with the last picture may find it whole. */
export async function buildUntil(folder: string, source: ProxySource, index: ClipIndex, stopAt: number): Promise<void> {
  const stop = new AbortController();
  const onFrame = (written: number): void => {
    if (written >= stopAt) stop.abort();
  };
  await expectRefused(buildCopy(folder, source, index, { signal: stop.signal, onFrame }), 'cancelled');
  const copy = await new ProxyStore(folder).open({ sha256: CLIP_SHA, index });
  expect(copy.count).toBe(stopAt);
  if (copy.complete && stopAt === index.frames.length) expect(copy.result?.delivered).toEqual(timesOf(index));
  else expect([copy.complete, copy.result]).toEqual([false, null]);
  await copy.release();
}

/** Holds when nothing is missing and every picture of a plain clip stands under its own time. */
export async function expectWhole(ffmpeg: Ffmpeg, copy: ClipProxy, times: readonly number[]): Promise<void> {
  expect(copy.result).toEqual({ delivered: times, errors: false });
  expect(await proxyCodes(ffmpeg, copy, times)).toEqual(numbers(times.length));
}

/** Where the making of a copy is broken off: nowhere, at its ends, or amid it. */
const BREAKS: readonly ((last: number) => readonly number[])[] = [
  () => [],
  (last) => [1, last],
  (last) => [Math.ceil(last / 3), Math.ceil((2 * last) / 3) + 1],
];

/**
 * Holds when a clip's copy has every frame that a plain decode shows, each under its own time, in one go or in pieces.
 * `truth` are the codes that decode shows, `place` the clip's number in its list, `errors` whether its decoder complains.
 */
export async function expectCopies(
  source: ProxySource,
  index: ClipIndex,
  { truth, place, errors }: { readonly truth: readonly number[]; readonly place: number; readonly errors: boolean },
): Promise<void> {
  // What broke off has no picture and is last in time.
  const times = timesOf(index).slice(0, truth.length);
  const folder = temporaryFolder();
  const copies: ClipProxy[] = [];
  for (const breaks of drawn(BREAKS, place)) {
    const at = join(folder, String(copies.length));
    for (const stopAt of new Set(breaks(times.length)))
      if (stopAt <= times.length) await buildUntil(at, source, index, stopAt);
    const { copy, result } = await buildCopy(at, source, index);
    copies.push(copy);
    expect(result).toEqual({ delivered: times, errors });
    expect([copy.complete, copy.count, copy.result]).toEqual([true, times.length, result]);
  }
  expect(await codesOfCopies(source.ffmpeg, copies, times)).toEqual(copies.map(() => truth));
  for (const copy of copies) await copy.release();
}

/**
 * An ffmpeg that does something else when it is to make proxy pictures: the lines of a shell script, in which `$real` is
 * the true one and "$@" what it is told.
 */
export function changedPasses(ffmpeg: Ffmpeg, lines: readonly string[]): Ffmpeg {
  const path = join(temporaryFolder(), 'ffmpeg');
  const pass = ['case "$*" in *"-f tee"*)', ...lines, ';; esac', 'exec "$real" "$@"'];
  writeFileSync(path, ['#!/bin/sh', `real='${ffmpeg.path}'`, ...pass, ''].join('\n'));
  chmodSync(path, 0o755);
  return { ...ffmpeg, path };
}
