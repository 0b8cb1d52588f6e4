import type { ClipName } from '../bars.ts';
import { BITS, ROWS_OF_CELLS, stripPlace } from './code-strip.ts';
import type { Size } from './code-strip.ts';

/** Name of a clip file: those the rows are about, and the other lengths of the first. */
export type FilmName =
  | ClipName
  | '1080p240-20s'
  | '1080p240-second'
  | '1080p240-5s'
  | '1080p240-2s'
  | '1080p240-180s'
  | 'edit-whole';

/** A clip that is painted and encoded. */
interface Painted {
  readonly kind: 'painted';
  readonly size: Size;
  readonly frames: number;
  /** Frames a second; for a clip of variable rate only how fast things move. */
  readonly rate: number;
  /** Filter that gives the frames their times, or null for an even rate. */
  readonly times: string | null;
  readonly encoder: readonly string[];
}

/** A clip cut out of another one without encoding it again. */
interface Cut {
  readonly kind: 'cut';
  readonly from: FilmName;
  /** Seconds; before a key frame the cut leaves frames in the file that an edit list hides. */
  readonly start: number;
  readonly frames: number | null;
}

/** One film so many times over, without encoding it again. */
interface Repeated {
  readonly kind: 'repeated';
  readonly from: FilmName;
  readonly times: number;
}

export interface Recipe {
  readonly film: Painted | Cut | Repeated;
  /** Quarter turns clockwise that the file asks for. */
  readonly turn: 0 | 90;
  /** Size of the stored picture. */
  readonly size: Size;
}

/** Phones encode fast, at a high rate and with few tricks: so does this preset, with the B-frames it would leave out. */
const h264 = (group: number, quality: number): readonly string[] => [
  ...['-c:v', 'libx264', '-preset', 'superfast', '-crf', String(quality), '-pix_fmt', 'yuv420p'],
  ...['-bf', '3', '-b_strategy', '0', '-g', String(group), '-keyint_min', String(group), '-sc_threshold', '0'],
];
const OPEN_HEVC = 'keyint=120:min-keyint=120:scenecut=0:bframes=3:b-adapt=0:open-gop=1:log-level=error';

/** Ticks of 1/90000 s: every ninth gap is a single tick, the others are 3 to 37 ms. */
const UNEVEN = "settb=1/90000,setpts='if(N,PREV_OUTPTS+if(eq(mod(N,9),8),1,300+mod(N*N*37,11)*303),0)'";

const painted = (
  size: Size,
  frames: number,
  rate: number,
  encoder: readonly string[],
  times: string | null = null,
): Recipe => ({ film: { kind: 'painted', size, frames, rate, times, encoder }, turn: 0, size });
const cut = (size: Size, from: FilmName, start: number, frames: number | null, turn: 0 | 90 = 0): Recipe => ({
  film: { kind: 'cut', from, start, frames },
  turn,
  size,
});

/** All films of one length and size. */
export interface Films {
  readonly recipes: Readonly<Record<FilmName, Recipe>>;
  /** What tells the files of these films from those of others; part of a folder's name. */
  readonly mark: string;
}

/** `part`: how much shorter the long film is, and with it all that is cut from it. */
function recipesOf(hd: Size, uhd: Size, part: number): Films['recipes'] {
  return {
    // Key frames also where the shorter ones end, so that a cut loses no B-frame.
    '1080p240-20s': painted(hd, 4800 / part, 240, [
      ...h264(250 / part, 21),
      ...['-force_key_frames', [2, 5, 10].map((seconds) => seconds / part).join(',')],
    ]),
    '1080p240': cut(hd, '1080p240-20s', 0, 2400 / part),
    '1080p240-second': cut(hd, '1080p240-20s', 10 / part, 2400 / part),
    '1080p240-5s': cut(hd, '1080p240-20s', 0, 1200 / part),
    '1080p240-2s': cut(hd, '1080p240-20s', 0, 480 / part),
    // What a phone that was left running brings: three minutes.
    '1080p240-180s': { film: { kind: 'repeated', from: '1080p240-20s', times: 9 }, turn: 0, size: hd },
    '1080p60': painted(hd, 600, 60, h264(250, 22)),
    '1080p120-hevc': painted(hd, 720, 120, [
      ...['-c:v', 'libx265', '-preset', 'ultrafast', '-crf', '18', '-pix_fmt', 'yuv420p', '-tag:v', 'hvc1'],
      ...['-x265-params', OPEN_HEVC],
    ]),
    'variable-rate': painted(
      hd,
      828,
      90,
      [...h264(250, 22), '-fps_mode', 'passthrough', '-enc_time_base', '1:90000', '-video_track_timescale', '90000'],
      UNEVEN,
    ),
    'edit-whole': painted(hd, 660, 60, h264(250, 22)),
    'edit-turned': cut(hd, 'edit-whole', 1, null, 90),
    '4k60': painted(uhd, 300, 60, h264(120, 22)),
  };
}

/** The films that figures are claimed of. */
export const FILMS: Films = {
  recipes: recipesOf({ width: 1920, height: 1080 }, { width: 3840, height: 2160 }, 1),
  mark: '',
};

/** The same films small, and the long one short: to see within minutes that the bench itself works. Their times tell nothing. */
export const SHORT_FILMS: Films = {
  recipes: recipesOf({ width: 480, height: 270 }, { width: 960, height: 540 }, 5),
  mark: '-short',
};

/** How much larger the still is than the picture that pans over it. */
const MARGIN = 13 / 12;

/** Size of the still that a film of `size` pans over, even. */
export function stillSize({ width, height }: Size): Size {
  const even = (side: number): number => 2 * Math.round((side * MARGIN) / 2);
  return { width: even(width), height: even(height) };
}

/**
 * The arguments that encode a film to `out`. Input 0 is the still at `still`, input 1 the code strips from standard input.
 * The still slides about, a piece of it swings across, film grain lies over all but the swinging piece and the strip.
 */
export function paintArguments(film: Painted, still: string, out: string): string[] {
  const { size, rate } = film;
  const large = stillSize(size);
  const strip = stripPlace(size);
  const unit = size.height / 1080;
  // Times in seconds of film, so that a body moves as fast at 60 as at 240 frames a second.
  const swing = (seconds: number): string => `sin(n/${(rate * seconds).toFixed(2)})`;
  const [slackX, slackY] = [(large.width - size.width) / 2, (large.height - size.height) / 2];
  const pan = `x='${slackX}+${slackX - 1}*${swing(0.4)}':y='${slackY}+${slackY - 1}*${swing(0.7)}'`;
  const piece = `crop=${320 * unit}:${760 * unit}:${1200 * unit}:${200 * unit}`;
  const place = `x='${900 * unit}+${300 * unit}*${swing(0.25)}':y='${180 * unit}+${60 * unit}*${swing(0.17)}'`;
  const graph = [
    `[0:v]loop=loop=-1:size=1,settb=1/${rate},setpts=N,split[back][front]`,
    `[back]crop=${size.width}:${size.height}:${pan},noise=c0s=16:c0f=t+u[ground]`,
    `[front]${piece}[piece]`,
    `[ground][piece]overlay=${place}:shortest=0[scene]`,
    `[1:v]settb=1/${rate},setpts=N,scale=${strip.width}:${strip.height}:flags=neighbor,format=yuv420p[strip]`,
    `[scene][strip]overlay=x=${strip.left}:y=${strip.top}:shortest=1${film.times === null ? '' : `,${film.times}`}[out]`,
  ];
  const raw = (format: string, { width, height }: Size): string[] => [
    ...['-f', 'rawvideo', '-pix_fmt', format, '-s', `${width}x${height}`, '-framerate', String(rate)],
  ];
  return [
    ...[...raw('yuv420p', large), '-i', still, ...raw('gray', { width: BITS, height: ROWS_OF_CELLS }), '-i', 'pipe:0'],
    ...['-filter_complex', graph.join(';'), '-map', '[out]', '-frames:v', String(film.frames)],
    ...[...film.encoder, '-colorspace', 'bt709', '-color_primaries', 'bt709', '-color_trc', 'bt709'],
    ...['-f', 'mp4', out],
  ];
}

/** The arguments that cut a film out of the file `from`. */
export function cutArguments(film: Cut, from: string, out: string): string[] {
  const start = film.start === 0 ? [] : ['-ss', String(film.start)];
  const count = film.frames === null ? [] : ['-frames:v', String(film.frames)];
  return [...start, '-i', from, '-map', '0:v:0', '-c', 'copy', ...count, '-f', 'mp4', out];
}

/** The list by which ffmpeg reads a film so many times over, and the arguments that make one file of it. */
export function repeatedList(film: Repeated, from: string): string {
  return `file '${from.replaceAll("'", String.raw`'\''`)}'\n`.repeat(film.times);
}

export function repeatArguments(list: string, out: string): string[] {
  return ['-f', 'concat', '-safe', '0', '-i', list, '-map', '0:v:0', '-c', 'copy', '-f', 'mp4', out];
}
