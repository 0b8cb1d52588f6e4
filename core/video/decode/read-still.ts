import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import { rawBytes } from '../../model/picture-layout.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { readIndexedSource } from '../index/clip-source.ts';
import type { ClipSource, ReadOptions } from '../index/clip-source.ts';
import { entrySeconds } from '../index/entry-point.ts';
import { readFramePipe, soonPipeArguments } from './frame-pipe.ts';
import { requireSuccess, startFfmpeg } from '../process/run-ffmpeg.ts';
import { QUICK_DECODING } from '../proxy/proxy-encoder.ts';
import { LARGEST_SIDE } from '../proxy/proxy-size.ts';
import type { PictureSide } from '../proxy/proxy-size.ts';
import type { PictureKind } from './picture-filter.ts';
import { shownPictures } from './shown-pictures.ts';

/** One frame as it is shown: upright, square pixels. */
export interface Still {
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  /** The time stamp that ffmpeg delivered with it; the same as in the index. */
  readonly pts: number;
  /** As its kind says: a PNG file, or see `PictureLayout`. */
  readonly data: Uint8Array;
}

export interface StillOptions extends ReadOptions {
  readonly as: PictureKind;
  /** Of proxy pictures; the largest when not given. */
  readonly longest?: PictureSide;
}

const STILL_LIMIT_MS = 10 * 60_000;

/**
 * Reads one exact frame. Decoding enters at the key picture before it and the frame is picked by its time stamp; should
 * it not come out that way, the clip is decoded from its start. Null = there is no such frame.
 *
 * Throws AppError: as `readClipSource`, and `clip-damaged` when the frame cannot be decoded, `clip-changed` when the
 * file is not the one the index was read from.
 */
export async function readStill(
  path: string,
  index: ClipIndex,
  frameIndex: number,
  options: StillOptions,
): Promise<Still | null> {
  if (index.frames[frameIndex] === undefined) return null;
  return decodeStill(await readIndexedSource(path, index, options), index, frameIndex, options);
}

/** The same of a file that was looked at already. */
export async function decodeStill(
  source: ClipSource,
  index: ClipIndex,
  frameIndex: number,
  options: StillOptions,
): Promise<Still | null> {
  const frame = index.frames[frameIndex];
  if (frame === undefined) return null;
  const { path } = source;
  const enterAt = entrySeconds(index, source.format, frameIndex);
  const entered = enterAt === null ? null : await decodeOne(source, index, frame.pts, options, enterAt);
  const data = entered ?? (await decodeOne(source, index, frame.pts, options, null));
  if (data === null)
    throw new AppError('clip-damaged', say`Frame ${frameIndex} of ${path} cannot be decoded; choose another frame.`, {
      detail: { path, frameIndex, pts: frame.pts },
    });
  return { width: index.width, height: index.height, pts: frame.pts, data };
}

/** The picture with exactly this time stamp, or null when the run did not deliver it. */
async function decodeOne(
  source: ClipSource,
  index: ClipIndex,
  pts: number,
  { ffmpeg, signal, as, longest = LARGEST_SIDE }: StillOptions,
  enterAt: number | null,
): Promise<Uint8Array | null> {
  const shown = shownPictures(source, index, ffmpeg, { kind: as, first: pts, last: pts, enterAt, longest });
  const quick = as === 'proxy' ? QUICK_DECODING : [];
  const args = ['-v', 'error', ...quick, ...shown.args, '-frames:v', '1', ...soonPipeArguments(as)];
  const run = startFfmpeg(ffmpeg, args, { signal, timeLimitMs: STILL_LIMIT_MS, folder: shown.folder });
  try {
    const bytes = as === 'png' ? null : rawBytes({ kind: as, width: index.width, height: index.height });
    for await (const frame of readFramePipe(run.output))
      if (frame.pts === pts && frame.data.length === (bytes ?? frame.data.length)) return frame.data;
  } finally {
    run.stop();
  }
  const end = await run.end;
  requireSuccess(end);
  return null;
}
