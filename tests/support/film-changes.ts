import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { ffmpegNow } from './coded-clip.ts';

const [WIDTH, HEIGHT] = [480, 270];
/** So much another grey is another picture there: a line and its dark edge. */
const OTHER = 40;
/** A line is at least so many of these pixels high. */
const LEAST_PIXELS = 12;

/**
 * When lines came up on a still picture of a video, found by a plain decode: ms of each, from the left. Two lines lie at
 * least 1/60 of the width apart.
 */
export function linesIn(
  ffmpeg: Ffmpeg,
  path: string,
  seconds: { readonly from: number; readonly to: number },
): number[] {
  const span = ['-ss', String(seconds.from), '-t', String(seconds.to - seconds.from)];
  const scale = `scale=${String(WIDTH)}:${String(HEIGHT)},format=gray`;
  const args = ['-i', path, ...span, '-map', '0:v:0', '-fps_mode', 'passthrough', '-vf', scale, '-f', 'rawvideo', '-'];
  const bytes = ffmpegNow(ffmpeg, args);
  const size = WIDTH * HEIGHT;
  const count = Math.floor(bytes.length / size);
  const first = bytes.subarray(0, size);
  const last = bytes.subarray((count - 1) * size, count * size);
  const lines = columnsOf(first, last);
  return lines.map((pixels) => {
    const began = Array.from({ length: count }).findIndex((_, picture) => {
      const there = pixels.filter((at) => {
        const [is, was, will] = [bytes[picture * size + at] ?? 0, first[at] ?? 0, last[at] ?? 0];
        return Math.abs(is - was) > Math.abs(will - was) / 2;
      });
      return there.length > pixels.length / 2;
    });
    return seconds.from * 1000 + (began * 1000) / 30;
  });
}

/** Pixels that differ at the end, together where their columns lie close. */
function columnsOf(first: Uint8Array, last: Uint8Array): readonly (readonly number[])[] {
  const columns = Array.from({ length: WIDTH }, (_, x) =>
    Array.from({ length: HEIGHT }, (_, y) => y * WIDTH + x).filter(
      (at) => Math.abs((first[at] ?? 0) - (last[at] ?? 0)) > OTHER,
    ),
  );
  const lines: number[][] = [];
  let gap = Infinity;
  for (const pixels of columns) {
    if (pixels.length < LEAST_PIXELS) {
      gap += 1;
      continue;
    }
    if (gap > WIDTH / 120) lines.push([]);
    lines.at(-1)?.push(...pixels);
    gap = 0;
  }
  return lines;
}
