import type { Ratio } from '../../model/frame.ts';
import { quarterTurn } from '../../time/display-matrix.ts';
import type { Orientation } from '../../time/display-matrix.ts';
import { ratio } from '../../time/rational.ts';

/** Colour words as ffmpeg prints them, null where the file does not say. */
export interface ColourFacts {
  readonly range: 'tv' | 'pc' | null;
  readonly matrix: string | null;
  readonly primaries: string | null;
  readonly transfer: string | null;
}

/** What ffmpeg's report on its input says about the picture stream it chose, and whether there is sound. */
export interface HeaderFacts {
  /** Number of the stream within the file, from 0. */
  readonly stream: number;
  /** The file's own number of the track, e.g. 1; null when not printed. */
  readonly trackId: number | null;
  readonly codec: string;
  /** How ffmpeg names the layout of a stored pixel, e.g. yuv420p; null where it does not say. */
  readonly pixelFormat: string | null;
  readonly colour: ColourFacts;
  /** Whether its pictures are called whole frames; false where they may be fields, or ffmpeg does not say. */
  readonly progressive: boolean;
  /** A picture for a music cover, not a clip. */
  readonly cover: boolean;
  /** Clockwise turn to upright; whether it is mirrored too is not printed. */
  readonly turn: Orientation['turn'];
  readonly sound: boolean;
  /** Frames a second the file says the camera took. */
  readonly captureRate: Ratio | null;
}

/** What is read of a report, by the beginnings of its lines; the first three stand where its parts begin. */
const HEADER_LINES =
  /^(Input #0|Output #0|Stream mapping:)|^ {2,}Stream #0:|^ +displaymatrix: |^ +com\.android\.capture\.fps *: |moov atom not found|Picture size \d+x\d+ exceeds/;
/** Characters. A file of hundreds of streams has fewer. */
const MOST_KEPT = 256 * 1024;

/**
 * Keeps of ffmpeg's report on its input what `parseHeader` reads, whether the table of an MP4 file was missing, and whether
 * its pictures were too large to begin with. A file
 * that begins in the middle can be complained of for hundreds of kilobytes before the report on it begins.
 */
export class HeaderLines {
  readonly #lines: string[] = [];
  #kept = 0;

  /** Takes one whole line. */
  read(line: string): void {
    if (this.#kept > MOST_KEPT || !HEADER_LINES.test(line)) return;
    this.#lines.push(line);
    this.#kept += line.length;
  }

  get text(): string {
    return this.#lines.join('\n');
  }
}

/** Reads ffmpeg's report (stderr at level info). Null when it chose no picture stream. */
export function parseHeader(text: string): HeaderFacts | null {
  const lines = text.split(/\r?\n/);
  const inputEnd = lines.findIndex((line) => /^(Output #0|Stream mapping:)/.test(line));
  const input = inputEnd < 0 ? lines : lines.slice(0, inputEnd);
  const chosen = /^ {2}Stream #0:(\d+).* -> #0:0/m.exec(text)?.[1];
  if (chosen === undefined) return null;

  const start = input.findIndex((line) => new RegExp(`^ {2,}Stream #0:${chosen}(?!\\d).*: Video: `).test(line));
  const streamLine = input[start];
  if (streamLine === undefined) return null;
  const after = input.slice(start + 1);
  const nextStream = after.findIndex((line) => /^ {2,}Stream #0:/.test(line));
  const own = nextStream < 0 ? after : after.slice(0, nextStream);

  const rotation = own.map((line) => /displaymatrix: rotation of (-?[\d.]+) degrees/.exec(line)?.[1]).find(Boolean);
  const trackId = /^ {2,}Stream #0:\d+\[0x([0-9a-f]+)\]/.exec(streamLine)?.[1];
  return {
    stream: Number(chosen),
    trackId: trackId === undefined ? null : Number.parseInt(trackId, 16),
    codec: /: Video: (\w+)/.exec(streamLine)?.[1] ?? 'unknown',
    pixelFormat: new RegExp(`, (${PIXEL_FORMAT})(?:\\(|,| )`).exec(streamLine)?.[1] ?? null,
    colour: colourFacts(streamLine),
    progressive: /[(, ]progressive[),]/.test(streamLine),
    cover: streamLine.includes('(attached pic)'),
    // ffmpeg counts degrees anticlockwise.
    turn: rotation === undefined ? 0 : quarterTurn(-Number(rotation)),
    sound: input.some((line) => /^ {2,}Stream #0:\d+.*: Audio: /.test(line)),
    captureRate: captureRate(input),
  };
}

const PIXEL_FORMAT = '(?:yuv|gbr|rgb|bgr|gray|nv|p0|p2|y2|x2|argb|abgr|pal|ya|bayer)\\w*';

/** "yuv420p10le(tv, bt2020nc/bt2020/arib-std-b67, progressive)" and its shorter forms. */
function colourFacts(streamLine: string): ColourFacts {
  const inside = new RegExp(`, ${PIXEL_FORMAT}\\(([^)]*)\\)`).exec(streamLine)?.[1] ?? '';
  const words = inside.split(', ').map((word) => word.trim());
  const range = words.find((word): word is 'tv' | 'pc' => word === 'tv' || word === 'pc') ?? null;
  const rest = words.find((word) => !/^(tv|pc|progressive|.* first|.*swapped|)$/.test(word)) ?? '';
  const [matrix = '', primaries = matrix, transfer = matrix] = rest.split('/');
  const known = (word: string): string | null => (word === '' || word === 'unknown' ? null : word);
  return { range, matrix: known(matrix), primaries: known(primaries), transfer: known(transfer) };
}

/**
 * com.android.capture.fps, which phones write into slow-motion clips. The other vendor's full-frame-rate-playback-intent
 * is a wish for playback and says nothing about the camera.
 */
function captureRate(input: readonly string[]): Ratio | null {
  const printed = input
    .map((line) => /^ +com\.android\.capture\.fps *: (\d+(?:\.\d+)?)$/.exec(line)?.[1])
    .find(Boolean);
  if (printed === undefined) return null;
  return captureRatio(Number(printed));
}

/** A rate that was stored as a float, as a ratio: whole, or a multiple of 1/1001 or of 1/1000. Null unless 1..100,000. */
export function captureRatio(framesPerSecond: number): Ratio | null {
  if (!(framesPerSecond >= 1 && framesPerSecond <= 100_000)) return null;
  const whole = Math.round(framesPerSecond);
  // Floats of 24 bits carry seven digits.
  const near = (value: number): boolean => Math.abs(value - framesPerSecond) <= 1e-6 * framesPerSecond;
  if (near(whole)) return ratio(whole, 1);
  if (Math.abs((whole * 1000) / 1001 - framesPerSecond) <= 5e-3) return ratio(whole * 1000, 1001);
  return ratio(Math.round(framesPerSecond * 1000), 1000);
}
