import type { Luma } from './luma.ts';

/** Beside a shaft, this far off, the pictures do not differ as they do on it; part of the height. */
const BESIDE = 0.012;
/** A difference of less is noise; grey values. */
const NOISE = 8;

/**
 * How much more two pictures differ at a place than beside a line through it, in the direction (dx, dy) of length 1: grey
 * values, -`most` to `most`. A wide thing is no shaft: hands, arms. Out of the picture nothing differs.
 *
 * @param most a difference of more, less the noise, counts no more than this
 */
export function thinLine(
  now: Luma,
  ground: Luma,
  { width, height }: { readonly width: number; readonly height: number },
  most: number,
): (x: number, y: number, dx: number, dy: number) => number {
  const beside = Math.max(2, BESIDE * height);
  const value = (x: number, y: number): number => {
    const [u, v] = [Math.round(x), Math.round(y)];
    if (u < 0 || v < 0 || u >= width || v >= height) return 0;
    const at = v * width + u;
    return Math.min(most, Math.max(0, Math.abs((now[at] ?? 0) - (ground[at] ?? 0)) - NOISE));
  };
  return (x, y, dx, dy) =>
    value(x, y) - Math.max(value(x - beside * dy, y + beside * dx), value(x + beside * dy, y - beside * dx));
}
