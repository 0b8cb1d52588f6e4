import type { PicturePoint } from '../model/mark.ts';
import type { Luma } from './luma.ts';

/** It is looked along from the clubhead's edge as far as this, parts of the picture's height. */
const LONG = { from: 0.02, to: 0.22 } as const;
/** Beside a shaft, this far off, the pictures do not differ as they do on it; part of the height. */
const BESIDE = 0.012;
/** A difference of less is noise, and one of more counts no more; grey values. */
const NOISE = 8;
const MOST = 30;
/** It stands out from what is beside it by so much on the mean over its length, grey values. */
const STANDS_OUT = 5;
/** Directions are tried in steps of so many degrees, and the line may pass so far beside the clubhead's middle. */
const STEP = 3;
const OFF = 0.006;

/**
 * Which way the shaft goes from the clubhead: degrees, 0 to the right, 90 up, -180 to 180. It is a thin straight line that is not
 * on the picture without the club. Null where none stands out: toward the camera a shaft is hardly seen.
 */
export function shaftFrom(
  now: Luma,
  ground: Luma,
  head: PicturePoint,
  { width, height }: { readonly width: number; readonly height: number },
): number | null {
  const value = (x: number, y: number): number => {
    const [u, v] = [Math.round(x), Math.round(y)];
    if (u < 0 || v < 0 || u >= width || v >= height) return 0;
    const at = v * width + u;
    return Math.min(MOST, Math.max(0, Math.abs((now[at] ?? 0) - (ground[at] ?? 0)) - NOISE));
  };
  const beside = Math.max(2, BESIDE * height);
  const [from, to] = [LONG.from * height, LONG.to * height];
  let best = { sum: STANDS_OUT * (to - from), angle: NaN };
  for (let angle = -180; angle < 180; angle += STEP) {
    const [dx, dy] = [Math.cos((angle * Math.PI) / 180), -Math.sin((angle * Math.PI) / 180)];
    for (let off = -OFF * height; off <= OFF * height; off += 1) {
      let sum = 0;
      for (let along = from; along <= to; along += 1) {
        const [x, y] = [head.x + along * dx - off * dy, head.y + along * dy + off * dx];
        const round = Math.max(value(x - beside * dy, y + beside * dx), value(x + beside * dy, y - beside * dx));
        sum += Math.max(-MOST, value(x, y) - round);
      }
      if (sum > best.sum) best = { sum, angle };
    }
  }
  return Number.isNaN(best.angle) ? null : best.angle;
}
