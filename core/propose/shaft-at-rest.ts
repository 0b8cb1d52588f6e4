import type { PicturePoint } from '../model/mark.ts';
import type { Luma } from './luma.ts';
import { thinLine } from './thin-line.ts';

/** The shaft leans by no more than this from upright as it is seen at address, degrees; looked at in steps of so many. */
const LEAN = { most: 56, step: 1 } as const;
/** Its line passes the clubhead's middle no farther off than this, and it is so long in sight; parts of the picture's height. */
const OFF_HEAD = 0.03;
const LONG = { least: 0.1, most: 0.4 } as const;
/** A difference of more counts no more; grey values. */
const MOST = 25;
/** A line is a shaft where it differs by so much more than what is beside it, grey values. */
const LEAST_STANDS_OUT = 4;
/** Hidden for longer than this it is at its end; part of the height, at full contrast. */
const HIDDEN = 0.008;

/**
 * Where the hands hide the shaft at address: the upper end of a thin straight line that begins near the clubhead, and is not on
 * the picture without the club. Null where none stands out.
 */
export function findShaftEnd(
  rest: Luma,
  ground: Luma,
  head: PicturePoint,
  size: { readonly width: number; readonly height: number },
): PicturePoint | null {
  const { height } = size;
  const standsOut = thinLine(rest, ground, size, MOST);
  let best: (PicturePoint & { readonly sum: number }) | null = null;
  for (let lean = -LEAN.most; lean <= LEAN.most; lean += LEAN.step) {
    const angle = (lean * Math.PI) / 180;
    const [dx, dy] = [Math.sin(angle), -Math.cos(angle)];
    for (let off = -OFF_HEAD * height; off <= OFF_HEAD * height; off += 1) {
      let [sum, most, end] = [0, 0, 0];
      for (let along = 0; along <= LONG.most * height && sum > most - HIDDEN * height * MOST; along += 1) {
        const [x, y] = [head.x + off + along * dx, head.y + along * dy];
        sum += standsOut(x, y, dx, dy) - LEAST_STANDS_OUT;
        if (sum > most) [most, end] = [sum, along];
      }
      if (end < LONG.least * height || most <= (best?.sum ?? 0)) continue;
      best = { sum: most, x: head.x + off + end * dx, y: head.y + end * dy };
    }
  }
  return best === null ? null : { x: best.x, y: best.y };
}
