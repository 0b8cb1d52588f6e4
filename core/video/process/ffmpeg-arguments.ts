import type { Ratio } from '../../model/frame.ts';
import { ratioText } from '../../time/rational.ts';
import type { ClipFormat } from '../index/clip-format.ts';
import { isAtLeast } from './find-ffmpeg.ts';
import type { Ffmpeg } from './find-ffmpeg.ts';
import { MOST_PIXELS } from '../index/reasonable.ts';

/**
 * Decoded pictures begin and end exactly where the clip says. Otherwise ffmpeg moves a left edge to where its fast code
 * likes memory to begin, and the picture comes out wider than it is.
 */
const EXACT_EDGES = ['-flags:v', '+unaligned'] as const;

const DECODER = ['-noautorotate', ...EXACT_EDGES, '-max_pixels', String(MOST_PIXELS)] as const;

/**
 * Opens a clip as what its content shows, from the disk only. The pictures are left as stored: they are turned by our
 * own filters, because ffmpeg's habit of turning them differs between releases.
 *
 * `enterAt` is where reading starts, in seconds of the clip's own clock; ffmpeg goes to the last key picture before it
 * and cuts nothing off.
 */
export function inputArguments(path: string, format: ClipFormat, enterAt: number | null = null): string[] {
  const seek = enterAt === null ? [] : ['-seek_timestamp', '1', '-noaccurate_seek', '-ss', enterAt.toFixed(6)];
  return [...DECODER, ...seek, '-protocol_whitelist', 'file,pipe', '-f', format, '-i', `file:${path}`];
}

/** The same for an MP4 file on standard input. */
export function pipedInputArguments(): string[] {
  return [...DECODER, '-protocol_whitelist', 'pipe', '-f', 'mov', '-i', 'pipe:0'];
}

/**
 * Lists coded pictures without decoding any, in file order, each with the time that the file gives it (framecrc on
 * standard output). The order in which they are decoded is told anew: where that of the file goes backwards, ffmpeg would
 * move times of pictures to make it rise.
 */
export function listPicturesArguments(ffmpeg: Ffmpeg, limit: readonly string[] = []): string[] {
  const args = ['-c', 'copy', '-copyinkf', '-copyts', '-avoid_negative_ts', 'disabled'];
  // Earlier than any time of a picture, since ffmpeg writes none that is shown before it is decoded.
  if (isAtLeast(ffmpeg.version, '5.0')) args.push('-bsf:v', `setts=pts=PTS:dts=N-${BEFORE_ALL_TICKS}`);
  return [...args, ...limit, '-f', 'framecrc', '-'];
}

const BEFORE_ALL_TICKS = 1e12;

/** Keeps the time stamps of the file: nothing shifted, doubled or dropped, in the clip's own time base. */
export function keepTimesArguments(ffmpeg: Ffmpeg, timebase: Ratio): string[] {
  // The same option under its name before 5.1, which newer releases no longer know.
  const unpaced = isAtLeast(ffmpeg.version, '5.1') ? ['-fps_mode', 'passthrough'] : ['-vsync', '0'];
  return ['-copyts', ...unpaced, '-enc_time_base', ratioText(timebase)];
}
