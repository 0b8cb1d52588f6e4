import { readFileSync } from 'node:fs';
import { outsideMedia } from './outside-media.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { WindowPicture } from '../../core/video/decode/frame-window.ts';
import { ffmpegNow } from './coded-clip.ts';

/** The checksums of decoded pictures in ffmpeg's framecrc output, in order. */
export function checksumsOf(framecrc: string): string[] {
  return framecrc.split('\n').flatMap((line) => /^0,.*, (0x[0-9a-f]{8})/.exec(line)?.[1] ?? []);
}

/** Those that FFmpeg's own test suite publishes for a stream of ITU-T H.264.1. */
export function publishedChecksums(list: string): string[] {
  return checksumsOf(readFileSync(outsideMedia(`h264-conformance/${list}`), 'utf8'));
}

/** The same checksums of samples as they are stored. */
export function checksumsOfRaw(ffmpeg: Ffmpeg, pictures: readonly WindowPicture[]): string[] {
  const [first] = pictures;
  if (first?.layout.kind !== 'i420') throw new Error(`not samples as stored: ${String(first?.layout.kind)}`);
  const { width, height } = first.layout;
  const raw = ['-f', 'rawvideo', '-pix_fmt', 'yuv420p', '-s', `${width}x${height}`, '-i', 'pipe:0'];
  const bytes = Buffer.concat(pictures.map(({ data }) => data));
  return checksumsOf(ffmpegNow(ffmpeg, [...raw, '-f', 'framecrc', '-bitexact', '-'], bytes).toString());
}
