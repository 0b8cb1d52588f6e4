import type { ClipIndex } from '../../time/clip-index.ts';
import { frameWithPts } from '../../time/frame-table.ts';
import type { ClipSource, ReadOptions } from '../index/clip-source.ts';
import { entrySeconds } from '../index/entry-point.ts';
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

/**
 * Whether one run for all of these key pictures (frames, in any order) may be made, and is cheaper than one each. Not where a
 * file does not list its key pictures, nor of fields: the second of a pair is no key picture.
 */
export function isOneRunCheaper(
  { format, codec, progressive }: Pick<ClipSource, 'format' | 'codec' | 'progressive'>,
  index: Pick<ClipIndex, 'frames'>,
  frames: readonly number[],
): boolean {
  if ((format !== 'mov' && format !== 'matroska') || (codec !== 'hevc' && !progressive)) return false;
  const [first, last] = [Math.min(...frames), Math.max(...frames)];
  const passed = index.frames.slice(first, last + 1).filter(({ key }) => key).length;
  return START_MS + MORE_MS * passed < ALONE_MS * frames.length;
}

/**
 * Small pictures of some key pictures of a clip, in the order of their times: one ffmpeg that decodes no other picture. One
 * that cannot be decoded so is left out. Its edges of blocks are not smoothed: nobody sees it in a picture of that size.
 * `frames`: at least one, in any order, each a key picture.
 * `signal` ends it without a word, as does an ffmpeg that fails.
 */
export async function* readKeyPictures(
  source: ClipSource,
  index: ClipIndex,
  frames: readonly number[],
  { ffmpeg, signal }: ReadOptions,
): AsyncGenerator<{ readonly frame: number; readonly data: Uint8Array }> {
  const times = frames.flatMap((frame) => index.frames[frame]?.pts ?? []).toSorted((a, b) => a - b);
  const enterAt = entrySeconds(index, source.format, Math.min(...frames));
  const wanted = { kind: 'proxy', times, enterAt, longest: STRIP_SIDE } as const;
  const shown = shownPictures(source, index, ffmpeg, wanted);
  const args = ['-v', 'error', '-skip_frame', 'nokey', '-skip_loop_filter', 'all', ...shown.args];
  args.push('-frames:v', String(times.length), ...soonPipeArguments('proxy'));
  const run = startFfmpeg(ffmpeg, args, { signal, timeLimitMs: LIMIT_MS, folder: shown.folder });
  try {
    for await (const { pts, data } of readFramePipe(run.output)) {
      const frame = frameWithPts(index, pts);
      if (frame !== null) yield { frame, data };
    }
  } finally {
    run.stop();
    await run.end;
  }
}
