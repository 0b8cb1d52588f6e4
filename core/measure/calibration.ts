import { inclineFromVertical } from '../geometry/line.ts';
import { toSwing } from '../geometry/point.ts';
import type { LineShape } from '../model/mark.ts';
import type { MarkedClip } from '../model/swing.ts';
import type { Quantity } from './uncertain.ts';

/** A shape that calibrates a clip, and what it says. */
export interface Calibration {
  readonly shapeId: string;
  readonly quantity: Quantity;
}

/**
 * Clips are filmed several metres away and readings lie off the yardstick's plane: a point nearer by d seems larger by
 * D / (D - d) - 1. Assumed, ours: camera at D = 5 m, d anywhere within +-0.3 m (half a body's depth), so a relative
 * standard uncertainty of 0.3 / 5 / sqrt(3), 3.5 %.
 */
export const OFF_PLANE_U = 0.3 / 5 / Math.sqrt(3);

/**
 * How far the true vertical leans toward +along, radians, from the longest plumb line drawn on any frame of the clip
 * (the camera stands still through a clip). null without one. u = sqrt(2) sigma / length.
 */
export function plumbOf(clip: Pick<MarkedClip, 'marks'>, side: 1 | -1, sigma: number): Calibration | null {
  const plumb = longest(clip, 'plumb');
  if (plumb === null) return null;
  const a = toSwing(plumb.a, { side, tilt: 0 });
  const b = toSwing(plumb.b, { side, tilt: 0 });
  const value = a.up < b.up ? inclineFromVertical(a, b) : inclineFromVertical(b, a);
  if (value === null) return null;
  const length = lengthOf(plumb);
  return { shapeId: plumb.id, quantity: { name: 'plumb', value, u: (Math.SQRT2 * sigma) / length } };
}

/**
 * Centimetres a pixel, > 0, from the longest yardstick drawn on any frame of the clip; it holds in the yardstick's own
 * plane. null without one. u = value sqrt(2) sigma / length, from placing its ends.
 */
export function yardstickOf(clip: Pick<MarkedClip, 'marks'>, sigma: number): Calibration | null {
  const yardstick = longest(clip, 'yardstick');
  if (yardstick === null || yardstick.lengthMm === null) return null;
  const length = lengthOf(yardstick);
  const value = yardstick.lengthMm / 10 / length;
  return { shapeId: yardstick.id, quantity: { name: 'yardstick', value, u: (value * Math.SQRT2 * sigma) / length } };
}

/** Whether `yardstickOf` would give a scale. */
export function hasYardstick(clip: Pick<MarkedClip, 'marks'>): boolean {
  return longest(clip, 'yardstick') !== null;
}

function lengthOf(line: LineShape): number {
  return Math.hypot(line.b.x - line.a.x, line.b.y - line.a.y);
}

/** The longest is the surest; of equals the first. Lines without length are left out. */
function longest(clip: Pick<MarkedClip, 'marks'>, role: 'plumb' | 'yardstick'): LineShape | null {
  let best: LineShape | null = null;
  for (const { shapes } of clip.marks)
    for (const shape of shapes)
      if (shape.kind === 'line' && shape.role === role && lengthOf(shape) > (best === null ? 0 : lengthOf(best)))
        best = shape;
  return best;
}
