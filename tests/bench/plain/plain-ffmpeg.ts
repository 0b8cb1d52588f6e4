import { isAtLeast } from '../../../core/video/process/find-ffmpeg.ts';
import type { BenchClip } from '../bench-clip.ts';
import { runPlain } from './run-plain.ts';

/** What the same work costs with ffmpeg as anybody would call it. Times are in milliseconds, spawn included. */

/** Seconds before a frame where a plain seek enters, so that it is right at key frames of open groups too. */
const SEEK_MARGIN = 0.25;

/** Decodes the whole clip. */
export async function timeRawDecode({ path, ffmpeg }: Pick<BenchClip, 'path' | 'ffmpeg'>): Promise<number> {
  return (await runPlain(ffmpeg, ['-i', path, '-map', '0:v', '-f', 'null', '-'])).lasted;
}

/** One frame's pixels by a seek of ffmpeg's own. */
export async function timePlainSeek(clip: BenchClip, frame: number): Promise<number> {
  const { pts } = frameOf(clip, frame);
  const start = Math.max(0, pts * clip.truth.tick - SEEK_MARGIN).toFixed(6);
  const bytes = (clip.stored.width * clip.stored.height * 3) / 2;
  const args = [
    '-noautorotate',
    '-ss',
    start,
    '-copyts',
    '-i',
    clip.path,
    '-map',
    '0:v',
    '-vf',
    `select='gte(pts,${pts})'`,
  ];
  const run = await runPlain(clip.ffmpeg, [...args, '-frames:v', '1', '-pix_fmt', 'yuv420p', '-f', 'rawvideo', '-'], {
    wanted: bytes,
  });
  if (run.arrived === null) throw new Error(`${clip.name}: a plain seek to frame ${frame} brought no picture`);
  return run.arrived;
}

/** The frame that decoding for `frame` must begin at: the last key frame not after it; null: the clip's beginning. */
export function keyBefore({ truth }: Pick<BenchClip, 'truth'>, frame: number): number | null {
  const key = truth.frames.findLastIndex(({ key }, index) => key && index <= frame);
  return key < 0 ? null : key;
}

/** Decodes from the key frame before a frame to the frame itself, and throws the pictures away. */
export async function timeDecodeFromKey(clip: BenchClip, frame: number): Promise<number> {
  const key = keyBefore(clip, frame);
  const unpaced = isAtLeast(clip.ffmpeg.version, '5.1') ? ['-fps_mode', 'passthrough'] : ['-vsync', '0'];
  const seek = key === null || key === 0 ? [] : ['-noaccurate_seek', '-ss', startOf(clip, key)];
  const count = frame - (key ?? 0) + 1;
  const args = [...seek, '-i', clip.path, '-map', '0:v', ...unpaced, '-frames:v', String(count), '-f', 'null', '-'];
  return (await runPlain(clip.ffmpeg, args)).lasted;
}

/** In seconds, half a tick late, so that rounding never enters a group too early. */
function startOf(clip: BenchClip, key: number): string {
  return ((frameOf(clip, key).pts + 0.5) * clip.truth.tick).toFixed(6);
}

function frameOf({ name, truth }: BenchClip, frame: number): { readonly pts: number } {
  const found = truth.frames[frame];
  if (found === undefined) throw new Error(`${name} has no frame ${frame}`);
  return found;
}
