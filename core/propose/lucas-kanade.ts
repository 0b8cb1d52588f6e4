import type { PicturePoint } from '../model/mark.ts';
import { valueAt, type Piece, type Pyramid } from './pyramid.ts';
import type { Window } from './window.ts';

/** So many steps at most, and a step of less than this ends it, samples. */
const STEPS = 20;
const SETTLED = 0.005;
/** Of less structure nothing is told, grey values squared. */
const LEAST_STRUCTURE = 0.05;

/**
 * Where what lies round `at` in one picture lies in the other: pyramidal Lucas-Kanade, coarse to fine, the other picture as much
 * brighter or darker as fits best. (Bouguet, "Pyramidal Implementation of the Lucas Kanade Feature Tracker", 2000; from
 * memory. Held against a vision library in tests/outside.) Null where the finest level tells nothing.
 *
 * @param at in samples of the finest level of `before`.
 * @param guess where it may be, in samples of the finest level of `after`.
 * @param windowAt the window of a level; 0 is the finest.
 */
export function shiftOf(
  before: Pyramid,
  after: Pyramid,
  at: PicturePoint,
  guess: PicturePoint,
  windowAt: (level: number) => Window,
): PicturePoint | null {
  let there = guess;
  for (let level = before.length - 1; level >= 0; level -= 1) {
    const [from, to, scale] = [before[level], after[level], 2 ** level];
    if (from === undefined || to === undefined) continue;
    const here = { x: at.x / scale, y: at.y / scale };
    const found = settle(from, to, here, { x: there.x / scale, y: there.y / scale }, windowAt(level));
    if (found !== null) there = { x: found.x * scale, y: found.y * scale };
    else if (level === 0) return null;
  }
  const [from, to] = [before[0], after[0]];
  return from === undefined || to === undefined ? null : turned(from, to, at, there, windowAt(0));
}

/** One level; null where it does not tell where it is, or leads far off. */
function settle(from: Piece, to: Piece, at: PicturePoint, start: PicturePoint, window: Window): PicturePoint | null {
  const { radius, weights } = window;
  const side = 2 * radius + 1;
  const [values, along, down] = [
    new Float32Array(side * side),
    new Float32Array(side * side),
    new Float32Array(side * side),
  ];
  let [all, sumX, sumY, xx, xy, yy] = [0, 0, 0, 0, 0, 0];
  for (let place = 0; place < side * side; place += 1) {
    const [x, y] = [at.x + (place % side) - radius, at.y + Math.floor(place / side) - radius];
    const weight = weights[place] ?? 0;
    const gx = slope(from, x, y, 1, 0);
    const gy = slope(from, x, y, 0, 1);
    values[place] = valueAt(from, x, y);
    along[place] = gx;
    down[place] = gy;
    all += weight;
    sumX += weight * gx;
    sumY += weight * gy;
    xx += weight * gx * gx;
    xy += weight * gx * gy;
    yy += weight * gy * gy;
  }
  if (all <= 0) return null;
  // A brightness that differs by the same all over is taken out: slopes count from their mean.
  const [meanX, meanY] = [sumX / all, sumY / all];
  xx -= all * meanX * meanX;
  xy -= all * meanX * meanY;
  yy -= all * meanY * meanY;
  const determinant = xx * yy - xy * xy;
  const structure = ((xx + yy) / 2 - Math.sqrt(((xx - yy) / 2) ** 2 + xy * xy)) / all;
  if (!(structure >= LEAST_STRUCTURE) || determinant <= 0) return null;
  let [dx, dy] = [start.x, start.y];
  for (let step = 0; step < STEPS; step += 1) {
    let [bx, by] = [0, 0];
    for (let place = 0; place < side * side; place += 1) {
      const weight = weights[place] ?? 0;
      if (weight === 0) continue;
      const [x, y] = [dx + (place % side) - radius, dy + Math.floor(place / side) - radius];
      const off = weight * ((values[place] ?? 0) - valueAt(to, x, y));
      bx += off * ((along[place] ?? 0) - meanX);
      by += off * ((down[place] ?? 0) - meanY);
    }
    const [stepX, stepY] = [(yy * bx - xy * by) / determinant, (xx * by - xy * bx) / determinant];
    dx += stepX;
    dy += stepY;
    if (Math.hypot(dx - start.x, dy - start.y) > 2 * radius) return null;
    if (Math.hypot(stepX, stepY) < SETTLED) break;
  }
  return { x: dx, y: dy };
}

/** What a turn or another size moves a place by is no shift of it: farther than this the two are not told apart, samples. */
const MOST_OF_TURN = 1.5;
const TURN_STEPS = 8;
const UNKNOWNS = 5;

/**
 * The place once more, as the thing may have turned or come nearer meanwhile: shift, turn and size together. Where that leads
 * far off, or the window does not tell them apart, the place is as it was.
 */
function turned(from: Piece, to: Piece, at: PicturePoint, start: PicturePoint, window: Window): PicturePoint {
  const { radius, weights } = window;
  const side = 2 * radius + 1;
  const count = side * side;
  // Of each sample what five unknowns change: shift along x and y, size, turn, brightness.
  const slopes = new Float64Array(UNKNOWNS * count);
  const values = new Float64Array(count);
  for (let place = 0; place < count; place += 1) {
    const [x, y] = [(place % side) - radius, Math.floor(place / side) - radius];
    const gx = slope(from, at.x + x, at.y + y, 1, 0);
    const gy = slope(from, at.x + x, at.y + y, 0, 1);
    slopes.set([gx, gy, (gx * x + gy * y) / radius, (gy * x - gx * y) / radius, 1], UNKNOWNS * place);
    values[place] = valueAt(from, at.x + x, at.y + y);
  }
  const normal = sumsOf(slopes, weights);
  let [dx, dy, larger, turn] = [start.x, start.y, 0, 0];
  for (let step = 0; step < TURN_STEPS; step += 1) {
    const right = [0, 0, 0, 0, 0];
    for (let place = 0; place < count; place += 1) {
      const [x, y] = [(place % side) - radius, Math.floor(place / side) - radius];
      const there = valueAt(to, dx + x + larger * x - turn * y, dy + y + turn * x + larger * y);
      const off = (weights[place] ?? 0) * ((values[place] ?? 0) - there);
      for (let row = 0; row < UNKNOWNS; row += 1)
        right[row] = (right[row] ?? 0) + off * (slopes[UNKNOWNS * place + row] ?? 0);
    }
    const by = solved(normal, right);
    if (by === null) return start;
    const [stepX = 0, stepY = 0, stepLarger = 0, stepTurn = 0] = by;
    dx += stepX;
    dy += stepY;
    larger += stepLarger / radius;
    turn += stepTurn / radius;
    if (Math.hypot(dx - start.x, dy - start.y) > MOST_OF_TURN) return start;
    if (Math.hypot(stepX, stepY) < SETTLED) break;
  }
  return { x: dx, y: dy };
}

function sumsOf(slopes: Float64Array, weights: Float32Array): readonly (readonly number[])[] {
  return Array.from({ length: UNKNOWNS }, (_, row) =>
    Array.from({ length: UNKNOWNS }, (__, column) => {
      let sum = 0;
      for (let place = 0; place < weights.length; place += 1)
        sum += (weights[place] ?? 0) * (slopes[UNKNOWNS * place + row] ?? 0) * (slopes[UNKNOWNS * place + column] ?? 0);
      return sum;
    }),
  );
}

/** Of a matrix that is symmetric and positive, by elimination; null where it is neither for certain. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): readonly number[] | null {
  const rows = matrix.map((row, at) => [...row, right[at] ?? 0]);
  for (const [at, row] of rows.entries()) {
    const pivot = row[at] ?? 0;
    if (!(pivot > 1e-6 * (matrix[at]?.[at] ?? 0))) return null;
    for (const [below, other] of rows.entries()) {
      if (below === at) continue;
      const times = (other[at] ?? 0) / pivot;
      for (let column = at; column < other.length; column += 1)
        other[column] = (other[column] ?? 0) - times * (row[column] ?? 0);
    }
  }
  return rows.map((row, at) => (row.at(-1) ?? 0) / (row[at] ?? 1));
}

/** The slope of brightness along x or y, grey values a sample: Scharr's mean of three differences. */
function slope(piece: Piece, x: number, y: number, alongX: 0 | 1, alongY: 0 | 1): number {
  let sum = 0;
  for (let off = -1; off <= 1; off += 1) {
    const [u, v] = [x + off * alongY, y + off * alongX];
    sum += (off === 0 ? 10 : 3) * (valueAt(piece, u + alongX, v + alongY) - valueAt(piece, u - alongX, v - alongY));
  }
  return sum / 32;
}
