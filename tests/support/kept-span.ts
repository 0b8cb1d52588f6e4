import { readFileSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect } from 'vitest';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { readClipIndex, readClipIndexReport } from '../../core/video/index/read-clip-index.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { keepSpan } from '../../core/video/span/keep-span.ts';
import type { KeptSpan } from '../../core/video/span/keep-span.ts';
import { ffmpegNow } from './coded-clip.ts';
import { temporaryFolder } from './temporary-folder.ts';

/** A clip with the truth about its pictures. */
export interface SummedClip {
  readonly path: string;
  readonly index: ClipIndex;
  readonly sums: readonly string[];
}

export async function readSummed(ffmpeg: Ffmpeg, path: string): Promise<SummedClip> {
  return { path, index: await readClipIndex(path, { ffmpeg, verify: true }), sums: decodedSums(ffmpeg, path) };
}

/** MD5 of the samples of every frame that a plain decode shows: the truth, found by none of the code under test. */
export function decodedSums(ffmpeg: Ffmpeg, path: string): string[] {
  const args = ['-noautorotate', '-i', path, '-map', '0:v:0', '-fps_mode', 'passthrough', '-f', 'framemd5', '-'];
  const lines = ffmpegNow(ffmpeg, args).toString().split('\n');
  return lines.filter((line) => /^\d/.test(line)).map((line) => line.split(',')[5]?.trim() ?? '');
}

function gaps({ frames }: ClipIndex): number[] {
  return frames.slice(1).map(({ pts }, place) => pts - (frames[place]?.pts ?? 0));
}

let count = 0;
/** Keeps a span and holds the new file against the old one. */
export async function expectKept(
  ffmpeg: Ffmpeg,
  { path, index, sums }: SummedClip,
  from: number,
  to: number,
): Promise<KeptSpan & { readonly out: string }> {
  const before = { bytes: readFileSync(path), modified: statSync(path).mtimeMs };
  const out = join(temporaryFolder(), `${String((count += 1))}-${basename(path)}`);
  const kept = await keepSpan({ ffmpeg, path, index, from, to, out });
  expect(kept.first).toBeLessThanOrEqual(from);
  expect(kept.last).toBeGreaterThanOrEqual(to);
  const { index: now, report } = await readClipIndexReport(out, { ffmpeg, verify: true });
  expect(report.tableDiffered).toBe(false);
  // Seconds are of no account; that one list equals the other means: in order, none missing, none more, bit for bit.
  expect(decodedSums(ffmpeg, out)).toEqual(sums.slice(kept.first, kept.last + 1));
  expect(gaps(now)).toEqual(gaps(index).slice(kept.first, kept.last));
  expect(now.frames[0]?.key === true || report.hidden > 0).toBe(true);
  const { width, height, turn, mirrored, pixelAspect, timebase, captureRate, dynamicRange } = index;
  expect(now).toMatchObject({ width, height, turn, mirrored, pixelAspect, timebase, captureRate, dynamicRange });
  expect(before).toEqual({ bytes: readFileSync(path), modified: statSync(path).mtimeMs });
  return { ...kept, out };
}
