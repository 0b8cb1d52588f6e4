import type { Ratio } from '../model/frame.ts';
import { ratioText } from '../time/rational.ts';
import type { ClipFormat } from './clip-format.ts';
import { isAtLeast } from './find-ffmpeg.ts';
import type { Ffmpeg } from './find-ffmpeg.ts';
import { MOST_PIXELS } from './reasonable.ts';

/**
 * Opens a clip as what its content shows, from the disk only. The pictures are left as stored: they are turned by our
 * own filters, because ffmpeg's habit of turning them differs between releases.
 *
 * `enterAt` is where reading starts, in seconds of the clip's own clock; ffmpeg goes to the last key picture before it
 * and cuts nothing off.
 */
export function inputArguments(path: string, format: ClipFormat, enterAt: number | null = null): string[] {
  const seek = enterAt === null ? [] : ['-seek_timestamp', '1', '-noaccurate_seek', '-ss', enterAt.toFixed(6)];
  return [
    '-noautorotate',
    '-max_pixels',
    String(MOST_PIXELS),
    ...seek,
    '-protocol_whitelist',
    'file,pipe',
    '-f',
    format,
    '-i',
    `file:${path}`,
  ];
}

/** Keeps the time stamps of the file: nothing shifted, doubled or dropped, in the clip's own time base. */
export function keepTimesArguments(ffmpeg: Ffmpeg, timebase: Ratio): string[] {
  // The same option under its name before 5.1, which newer releases no longer know.
  const unpaced = isAtLeast(ffmpeg.version, '5.1') ? ['-fps_mode', 'passthrough'] : ['-vsync', '0'];
  return ['-copyts', ...unpaced, '-enc_time_base', ratioText(timebase)];
}
