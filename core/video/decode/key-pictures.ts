import { open } from 'node:fs/promises';
import { unlessSilent } from '../../files/unless-silent.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { frameWithPts } from '../../time/frame-table.ts';
import type { ClipSource, ReadOptions } from '../index/clip-source.ts';
import { entrySeconds } from '../index/entry-point.ts';
import type { FewPictures } from '../index/few-pictures.ts';
import { askFewPictures } from '../index/read-container.ts';
import { startFfmpeg } from '../process/run-ffmpeg.ts';
import { STRIP_SIDE } from '../proxy/proxy-size.ts';
import { readFramePipe, soonPipeArguments } from './frame-pipe.ts';
import { shownPictures } from './shown-pictures.ts';

const LIMIT_MS = 60_000;

/**
 * What one more key picture costs a run that goes through all of them, and what a run costs that makes one picture by itself:
 * processor time of 1080p, ms (0.5 s for ten, 0.25 s for one; an ffmpeg that does nothing takes 0.13).
 */
const MORE_MS = 45;
const ALONE_MS = 250;
const START_MS = 130;

/** Whether one run through the clip for all of these key pictures (frames, in any order) is cheaper than one each. */
export function isOneRunCheaper(index: Pick<ClipIndex, 'frames'>, frames: readonly number[]): boolean {
  const [first, last] = [Math.min(...frames), Math.max(...frames)];
  const passed = index.frames.slice(first, last + 1).filter(({ key }) => key).length;
  return START_MS + MORE_MS * passed < ALONE_MS * frames.length;
}

/**
 * Whether key pictures of a clip can be made in one run. Not where a file does not list them, nor of fields: the second of a pair
 * is no key picture.
 */
export function canBeOneRun({
  format,
  codec,
  progressive,
}: Pick<ClipSource, 'format' | 'codec' | 'progressive'>): boolean {
  return (format === 'mov' || format === 'matroska') && (codec === 'hevc' || progressive);
}

/**
 * Small pictures of some key pictures of a clip, in the order of their times: one ffmpeg, which gets these pictures alone
 * where the clip's tables are plain, and goes through all key pictures where that is cheaper than a run each. Else none come. One
 * that cannot be decoded so is left out. Its edges of blocks are not smoothed: nobody sees it in a picture of that size.
 * `frames`: at least one, in any order, each a key picture of a clip of which it can be done.
 * `signal` ends it without a word, as does an ffmpeg that fails.
 */
export async function* readKeyPictures(
  source: ClipSource,
  index: ClipIndex,
  frames: readonly number[],
  { ffmpeg, signal }: ReadOptions,
): AsyncGenerator<{ readonly frame: number; readonly data: Uint8Array }> {
  const times = frames.flatMap((frame) => index.frames[frame]?.pts ?? []).toSorted((a, b) => a - b);
  const few = await fewOf(source, index, times);
  if (few === null && !isOneRunCheaper(index, frames)) return;
  const first = few?.first ?? 0;
  const enterAt = few === null ? entrySeconds(index, source.format, Math.min(...frames)) : null;
  const shown = shownPictures(source, index, ffmpeg, {
    ...{ kind: 'proxy', enterAt, piped: few !== null, longest: STRIP_SIDE },
    times: times.map((time) => time - first),
  });
  const args = ['-v', 'error', '-skip_frame', 'nokey', '-skip_loop_filter', 'all', ...shown.args];
  args.push('-frames:v', String(times.length), ...soonPipeArguments('proxy'));
  const run = startFfmpeg(ffmpeg, args, {
    ...{ signal, timeLimitMs: LIMIT_MS, folder: shown.folder },
    ...(few === null ? {} : { input: bytesOf(few, source.path) }),
  });
  try {
    for await (const { pts, data } of readFramePipe(run.output)) {
      const frame = frameWithPts(index, pts + first);
      if (frame !== null) yield { frame, data };
    }
  } finally {
    run.stop();
    await run.end;
  }
}

/** A file of these pictures alone; null where it cannot be had, and for one picture, to which a decoder finds as soon. */
async function fewOf(
  { path, format, timebase }: ClipSource,
  { frames }: ClipIndex,
  times: readonly number[],
): Promise<FewPictures | null> {
  if (format !== 'mov' || times.length < 2 || times.length === frames.length) return null;
  const few = await askFewPictures(path, times).catch(() => null);
  return few !== null && timebase.num === 1 && timebase.den === few.timescale ? few : null;
}

/** The small file, its pictures read out of the clip as they are asked for, up to where that ends. @throws AppError `file-unreadable`. */
async function* bytesOf({ head, places, sizes }: FewPictures, path: string): AsyncGenerator<Uint8Array> {
  yield head;
  const file = await unlessSilent(open(path), path);
  try {
    for (const [at, place] of places.entries()) {
      const picture = new Uint8Array(sizes[at] ?? 0);
      const { bytesRead } = await unlessSilent(file.read(picture, 0, picture.length, place), path);
      if (bytesRead < picture.length) return;
      yield picture;
    }
  } finally {
    await unlessSilent(file.close(), path).catch(() => undefined);
  }
}
