import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { WindowPicture } from '../../core/video/decode/frame-window.ts';
import { ffmpegNow } from './coded-clip.ts';
import { readCode } from './coded-picture.ts';
import type { Pixels } from './coded-picture.ts';

/** The pixels of pictures of one window as R, G, B, A, decoded by ffmpeg in one run, so that thousands take seconds. */
export function pixelsOfAll(ffmpeg: Ffmpeg, pictures: readonly WindowPicture[]): Pixels[] {
  const [first] = pictures;
  if (first === undefined) return [];
  const { kind, width, height, matrix, fullRange } = first.layout;
  const bytes = Buffer.concat(pictures.map((picture) => picture.data));
  const size = width * height * 4;
  const pixels = kind === 'rgba' ? bytes : decode();
  if (pixels.length !== size * pictures.length)
    throw new Error(`${pictures.length} pictures came out as ${pixels.length / size}`);
  return pictures.map((_, place) => ({
    ...{ width, height, step: 4 },
    data: pixels.subarray(place * size, (place + 1) * size),
  }));

  function decode(): Buffer {
    const raw = ['-f', 'rawvideo', '-pix_fmt', 'yuv420p', '-s', `${width}x${height}`];
    const input = kind === 'proxy' ? ['-f', 'h264'] : raw;
    const range = fullRange ? 'pc' : 'tv';
    const scale = `scale=in_color_matrix=${matrix}:in_range=${range}:flags=bicubic+accurate_rnd+full_chroma_int`;
    const out = ['-fps_mode', 'passthrough', '-vf', scale, '-pix_fmt', 'rgba', '-f', 'rawvideo', '-'];
    return ffmpegNow(ffmpeg, [...input, '-i', 'pipe:0', ...out], bytes);
  }
}

/** The numbers that pictures of any windows carry: one run for all of one layout, for a start takes longer than a picture. */
export function codesOfAll(ffmpeg: Ffmpeg, pictures: readonly WindowPicture[]): number[] {
  const codes: number[] = [];
  const layouts = pictures.map(({ layout }) => JSON.stringify(layout));
  for (const layout of new Set(layouts)) {
    const places = [...layouts.keys()].filter((place) => layouts[place] === layout);
    const alike = pictures.filter((_, place) => layouts[place] === layout);
    for (const [at, pixels] of pixelsOfAll(ffmpeg, alike).entries()) codes[places[at] ?? -1] = readCode(pixels);
  }
  return codes;
}

/** The same for one picture. */
export function windowPixels(ffmpeg: Ffmpeg, picture: WindowPicture): Pixels {
  const [pixels] = pixelsOfAll(ffmpeg, [picture]);
  if (pixels === undefined) throw new Error('no picture');
  return pixels;
}
