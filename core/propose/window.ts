import type { PicturePoint } from '../model/mark.ts';
import { valueAt, type Pyramid } from './pyramid.ts';

/** What lies round a place, as far as `radius` samples sideways and up and down. */
export interface Window {
  readonly radius: number;
  /** How much each sample counts, row by row; 0 or more. */
  readonly weights: Float32Array;
}

/** What changes by less between two pictures is noise, grey values; and what does not change counts by this much. */
const NOISE = 8;
const STAYS = 0.02;
/** The middle counts most: a bell so wide, in radii. */
const BELL = 0.7;

/** Every sample counts, the middle most. */
export function plainWindow(radius: number): Window {
  return windowOf(radius, () => 1);
}

/**
 * Samples that stay as they are, where they are, count little: they may be the ground that the thing moves over, which must not
 * hold it back. `now`: the other picture, cut at the same place. Where nothing changes all count alike.
 */
export function changeWindow(was: Pyramid, now: Pyramid, at: PicturePoint, level: number, radius: number): Window {
  const [one, other] = [was[level], now[level]];
  if (one === undefined || other === undefined) throw new Error(`no level ${String(level)}`);
  const middle = { x: at.x / 2 ** level, y: at.y / 2 ** level };
  return windowOf(radius, (x, y) => {
    const [u, v] = [middle.x + x, middle.y + y];
    const change = (valueAt(one, u, v) - valueAt(other, u, v)) ** 2;
    return STAYS + ((1 - STAYS) * change) / (change + NOISE * NOISE);
  });
}

function windowOf(radius: number, weight: (x: number, y: number) => number): Window {
  const side = 2 * radius + 1;
  const wide = 2 * (BELL * radius) ** 2;
  const weights = Float32Array.from({ length: side * side }, (_, place) => {
    const [x, y] = [(place % side) - radius, Math.floor(place / side) - radius];
    return Math.exp(-(x * x + y * y) / wide) * weight(x, y);
  });
  return { radius, weights };
}
