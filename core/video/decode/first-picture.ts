import { resolve } from 'node:path';
import type { FirstPicture } from '../../time/first-picture.ts';
import { readClipFile } from '../index/clip-format.ts';
import { readClipSource } from '../index/clip-source.ts';
import type { ReadOptions } from '../index/clip-source.ts';
import { inputArguments } from '../process/ffmpeg-arguments.ts';
import { hdrCurve } from './picture-filter.ts';
import { requireSuccess, runFfmpeg } from '../process/run-ffmpeg.ts';

/** Lines of the picture, stored. */
const LINES = 360;
const LIMIT_MS = 60_000;

/**
 * The first picture that a clip shows, to recognise it by: made without knowing its frames, so that it comes while those
 * are still being listed. Nothing is measured on it. Null for high dynamic range, which needs more than that.
 *
 * @throws AppError as `readClipSource`.
 */
export async function readFirstPicture(path: string, options: ReadOptions): Promise<FirstPicture | null> {
  const { ffmpeg, signal } = options;
  const { format } = await readClipFile(path);
  // Without the filter that smooths block edges: a sixth sooner where a clip hides frames before its first, and small as
  // the picture is, nobody sees it.
  const args = ['-v', 'error', '-skip_loop_filter', 'all', ...inputArguments(resolve(path), format)];
  args.push('-an', '-sn', '-dn', '-frames:v', '1');
  args.push('-vf', `scale=w=-2:h=min(ih\\,${LINES}):flags=bilinear`, '-c:v', 'mjpeg', '-pix_fmt', 'yuvj420p');
  args.push('-q:v', '3', '-f', 'image2pipe', '-');
  const { output, end } = await runFfmpeg(ffmpeg, args, { signal, timeLimitMs: LIMIT_MS });
  requireSuccess(end);
  // Known by the time that a picture is decoded, where the clip is being looked at.
  const { turn, mirrored, colour } = await readClipSource(path, options);
  if (output.length === 0 || hdrCurve(colour) !== null) return null;
  return { data: Uint8Array.from(output), turn, mirrored };
}
