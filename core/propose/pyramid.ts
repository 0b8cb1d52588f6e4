import type { Luma } from './luma.ts';

/** A piece of a picture: grey values, row by row; sample (i, j) has its middle at (i, j) of the piece's own places. */
export interface Piece {
  readonly width: number;
  readonly height: number;
  readonly samples: Float32Array;
}

/** The same piece at full size first, then each time half as wide and high; place p of one is p / 2 of the next. */
export type Pyramid = readonly Piece[];

/** A piece of a picture and where it lies. */
export interface Cut {
  /** Of the piece's first sample in the picture; whole. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** What lies beyond the picture is as its nearest edge. `levels` >= 1. */
export function pyramidOf(
  picture: Luma,
  size: { readonly width: number; readonly height: number },
  { left, top, width, height }: Cut,
  levels: number,
): Pyramid {
  const samples = new Float32Array(width * height);
  for (let y = 0; y < height; y += 1) {
    const row = Math.min(size.height - 1, Math.max(0, top + y)) * size.width;
    for (let x = 0; x < width; x += 1)
      samples[y * width + x] = picture[row + Math.min(size.width - 1, Math.max(0, left + x))] ?? 0;
  }
  const pyramid: Piece[] = [{ width, height, samples }];
  for (let last = pyramid[0]; last !== undefined && pyramid.length < levels; last = pyramid.at(-1))
    pyramid.push(halved(last));
  return pyramid;
}

/** Weights of a binomial of five: little of what is finer than the new samples is left (Burt and Adelson 1983, from memory). */
function halved({ width, height, samples }: Piece): Piece {
  const [wide, high] = [(width + 1) >> 1, (height + 1) >> 1];
  const rows = halvedAlong(samples, { count: width, step: 1, lines: height, apart: width }, 1, wide);
  return {
    width: wide,
    height: high,
    samples: halvedAlong(rows, { count: height, step: wide, lines: wide, apart: 1 }, wide, 1),
  };
}

interface Lines {
  /** Samples of a line, and how far one is from the next. */
  readonly count: number;
  readonly step: number;
  readonly lines: number;
  readonly apart: number;
}

/** Every second sample of each line, of the five about it. `step`, `apart`: of the new samples and lines. */
function halvedAlong(samples: Float32Array, from: Lines, step: number, apart: number): Float32Array {
  const half = (from.count + 1) >> 1;
  const made = new Float32Array(half * from.lines);
  for (let line = 0; line < from.lines; line += 1) {
    const value = (at: number): number =>
      samples[line * from.apart + Math.min(from.count - 1, Math.max(0, at)) * from.step] ?? 0;
    for (let at = 0; at < half; at += 1) {
      const middle = 2 * at;
      const sum =
        value(middle - 2) + 4 * (value(middle - 1) + value(middle + 1)) + 6 * value(middle) + value(middle + 2);
      made[line * apart + at * step] = sum / 16;
    }
  }
  return made;
}

/** The grey value at a place between samples, by the four about it; beyond the piece that of its edge. */
export function valueAt({ width, height, samples }: Piece, x: number, y: number): number {
  const u = Math.min(width - 1, Math.max(0, x));
  const v = Math.min(height - 1, Math.max(0, y));
  const i = Math.min(width - 2, Math.floor(u));
  const j = Math.min(height - 2, Math.floor(v));
  const at = j * width + i;
  const above = (samples[at] ?? 0) + (u - i) * ((samples[at + 1] ?? 0) - (samples[at] ?? 0));
  const under = at + width;
  const below = (samples[under] ?? 0) + (u - i) * ((samples[under + 1] ?? 0) - (samples[under] ?? 0));
  return above + (v - j) * (below - above);
}
