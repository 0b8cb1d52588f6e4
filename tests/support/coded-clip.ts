import { spawnSync } from 'node:child_process';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { CODED_HEIGHT, CODED_WIDTH, codedPicture, readCode } from './coded-picture.ts';
import { putClip } from './kept-clips.ts';

/** Runs ffmpeg to its end and throws unless it was content. */
export function ffmpegNow(ffmpeg: Ffmpeg, args: readonly string[], input?: Uint8Array): Buffer {
  const run = spawnSync(ffmpeg.path, ['-v', 'error', '-y', ...args], {
    input,
    maxBuffer: 512 * 1024 * 1024,
  });
  if (run.status !== 0) throw new Error(`ffmpeg ${args.join(' ')}: ${run.stderr.toString()}`);
  return run.stdout;
}

/** A clip of coded pictures 0 .. count - 1; `args` say how it is encoded, the last is the file. */
export function makeCodedClip(ffmpeg: Ffmpeg, count: number, rate: string, args: readonly string[]): void {
  const how = args.slice(0, -1);
  putClip(ffmpeg, { count, rate, how }, args.at(-1) ?? '', (path) => {
    const pictures = Buffer.concat(Array.from({ length: count }, (_, number) => codedPicture(number)));
    const size = `${CODED_WIDTH}x${CODED_HEIGHT}`;
    const input = ['-f', 'rawvideo', '-pix_fmt', 'gray', '-s', size, '-framerate', rate, '-i', 'pipe:0'];
    ffmpegNow(ffmpeg, [...input, ...how, path], pictures);
  });
}

/**
 * The codes of every frame that a plain decode from the start delivers, in order: the truth, found without any of the
 * code under test.
 */
export function decodedCodes(ffmpeg: Ffmpeg, path: string): number[] {
  const args = ['-noautorotate', '-i', path, '-map', '0:v:0', '-fps_mode', 'passthrough'];
  const scale = ['-vf', `scale=${CODED_WIDTH}:${CODED_HEIGHT}`, '-pix_fmt', 'gray', '-f', 'rawvideo', '-'];
  const bytes = ffmpegNow(ffmpeg, [...args, ...scale]);
  const size = CODED_WIDTH * CODED_HEIGHT;
  return Array.from({ length: bytes.length / size }, (_, place) =>
    readCode({
      width: CODED_WIDTH,
      height: CODED_HEIGHT,
      data: bytes.subarray(place * size, (place + 1) * size),
      step: 1,
    }),
  );
}
