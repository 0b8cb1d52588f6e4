import type { PicturePoint } from '../model/mark.ts';
import type { Luma } from './luma.ts';
import { thinLine } from './thin-line.ts';

/** It is looked along from the clubhead's edge as far as this, parts of the picture's height. */
const LONG = { from: 0.02, to: 0.22 } as const;
/** A difference of more counts no more; grey values. */
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
  size: { readonly width: number; readonly height: number },
): number | null {
  const { height } = size;
  const standsOut = thinLine(now, ground, size, MOST);
  const [from, to] = [LONG.from * height, LONG.to * height];
  let best = { sum: STANDS_OUT * (to - from), angle: NaN };
  for (let angle = -180; angle < 180; angle += STEP) {
    const [dx, dy] = [Math.cos((angle * Math.PI) / 180), -Math.sin((angle * Math.PI) / 180)];
    for (let off = -OFF * height; off <= OFF * height; off += 1) {
      let sum = 0;
      for (let along = from; along <= to; along += 1) {
        const [x, y] = [head.x + along * dx - off * dy, head.y + along * dy + off * dx];
        sum += standsOut(x, y, dx, dy);
      }
      if (sum > best.sum) best = { sum, angle };
    }
  }
  return Number.isNaN(best.angle) ? null : best.angle;
}
