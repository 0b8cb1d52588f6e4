import type { PicturePoint } from '../model/mark.ts';
import type { Luma } from './luma.ts';

/** The shaft leans by no more than this from upright as it is seen at address, degrees; looked at in steps of so many. */
const LEAN = { most: 56, step: 1 } as const;
/** Its line passes the clubhead's middle no farther off than this, and it is so long in sight; parts of the picture's height. */
const OFF_HEAD = 0.03;
const LONG = { least: 0.1, most: 0.4 } as const;
/** Beside a shaft, this far off, the pictures do not differ as they do on it; part of the height. */
const BESIDE = 0.012;
/** A difference of less is noise, and one of more counts no more; grey values. */
const NOISE = 8;
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
  { width, height }: { readonly width: number; readonly height: number },
): PicturePoint | null {
  const value = (x: number, y: number): number => {
    const [u, v] = [Math.round(x), Math.round(y)];
    if (u < 0 || v < 0 || u >= width || v >= height) return 0;
    const at = v * width + u;
    return Math.min(MOST, Math.max(0, Math.abs((rest[at] ?? 0) - (ground[at] ?? 0)) - NOISE));
  };
  const beside = Math.max(2, BESIDE * height);
  let best: (PicturePoint & { readonly sum: number }) | null = null;
  for (let lean = -LEAN.most; lean <= LEAN.most; lean += LEAN.step) {
    const angle = (lean * Math.PI) / 180;
    const [dx, dy] = [Math.sin(angle), -Math.cos(angle)];
    for (let off = -OFF_HEAD * height; off <= OFF_HEAD * height; off += 1) {
      let [sum, most, end] = [0, 0, 0];
      for (let along = 0; along <= LONG.most * height && sum > most - HIDDEN * height * MOST; along += 1) {
        const [x, y] = [head.x + off + along * dx, head.y + along * dy];
        // A wide thing is no shaft: hands, arms.
        const round = Math.max(value(x - beside * dy, y + beside * dx), value(x + beside * dy, y - beside * dx));
        sum += value(x, y) - round - LEAST_STANDS_OUT;
        if (sum > most) [most, end] = [sum, along];
      }
      if (end < LONG.least * height || most <= (best?.sum ?? 0)) continue;
      best = { sum: most, x: head.x + off + end * dx, y: head.y + end * dy };
    }
  }
  return best === null ? null : { x: best.x, y: best.y };
}
