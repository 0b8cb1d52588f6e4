import { spawnSync } from 'node:child_process';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { CODED_HEIGHT, CODED_WIDTH, readCode } from './coded-picture.ts';

export interface DecodedPicture {
  /** Ticks, as the decoder tells it. */
  readonly pts: number;
  /** The number that the picture carries. */
  readonly code: number;
}

/**
 * Every picture that ffmpeg decodes from the start of a clip, with its time: the truth for clips whose times are out of
 * order, found without any of the code under test. A full decode shows those whose time is later than all before.
 */
export function decodedPictures(ffmpeg: Ffmpeg, path: string): DecodedPicture[] {
  const args = ['-v', 'level+info', '-nostdin', '-copyts', '-flags:v', '+unaligned', '-i', path, '-map', '0:v:0'];
  args.push('-vf', `showinfo,scale=${CODED_WIDTH}:${CODED_HEIGHT},format=gray`, '-fps_mode', 'passthrough');
  const run = spawnSync(ffmpeg.path, [...args, '-f', 'rawvideo', '-'], { maxBuffer: 512 * 1024 * 1024 });
  const times = [...run.stderr.toString().matchAll(/Parsed_showinfo_0 @.* n: *\d+ pts: *(-?\d+)/g)];
  const size = CODED_WIDTH * CODED_HEIGHT;
  if (run.stdout.length !== times.length * size)
    throw new Error(`${times.length} times for ${run.stdout.length} bytes`);
  return times.map(([, pts], at) => {
    const data = run.stdout.subarray(at * size, (at + 1) * size);
    return { pts: Number(pts), code: readCode({ width: CODED_WIDTH, height: CODED_HEIGHT, data, step: 1 }) };
  });
}

/** Those of them that are shown. */
export function shownOf(pictures: readonly DecodedPicture[]): DecodedPicture[] {
  let last = -Infinity;
  return pictures.filter(({ pts }) => {
    if (pts <= last) return false;
    last = pts;
    return true;
  });
}
