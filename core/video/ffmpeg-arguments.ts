import type { Ratio } from '../model/frame.ts';
import { ratioText } from '../time/rational.ts';
import type { ClipFormat } from './clip-format.ts';
import { releaseOf } from './find-ffmpeg.ts';
import type { Ffmpeg } from './find-ffmpeg.ts';

/**
 * Opens a clip as what its content shows, from the disk only. The pictures are left as stored: they are turned by our
 * own filters, because ffmpeg's habit of turning them differs between releases.
 *
 * `enterAt` is where reading starts, in seconds of the clip's own clock; ffmpeg goes to the last key picture before it
 * and cuts nothing off.
 */
export function inputArguments(path: string, format: ClipFormat, enterAt: number | null = null): string[] {
  const seek = enterAt === null ? [] : ['-seek_timestamp', '1', '-noaccurate_seek', '-ss', enterAt.toFixed(6)];
  return ['-noautorotate', ...seek, '-protocol_whitelist', 'file,pipe', '-f', format, '-i', `file:${path}`];
}

/** Keeps the time stamps of the file: nothing shifted, doubled or dropped, in the clip's own time base. */
export function keepTimesArguments(ffmpeg: Ffmpeg, timebase: Ratio): string[] {
  const release = releaseOf(ffmpeg.version);
  // -fps_mode came with 5.1; the packaged build of 2018 calls itself N-47683.
  const old =
    ffmpeg.from === 'installer' || (release !== null && (release[0] < 5 || (release[0] === 5 && release[1] < 1)));
  return ['-copyts', ...(old ? ['-vsync', '0'] : ['-fps_mode', 'passthrough']), '-enc_time_base', ratioText(timebase)];
}
