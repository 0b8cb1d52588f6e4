import type { ScreenPoint, Size } from './view-transform.ts';

export type LoupeCorner = 'left' | 'right';

/** CSS pixels on each side, its border included. */
export const LOUPE_ROOM = 137;
/** CSS pixels between it and the edge of the stage. */
const MARGIN = 8;
/** So near the hand may come to the enlarged view, CSS pixels, before it goes to the other corner. */
const NEAR = 40;

/**
 * The lower corner of the stage in which the enlarged view is out of the way: the right one, or the left one where something
 * of `avoid` is near the right one. Where both corners are near something, the first of `avoid` counts most: the corner
 * farther from it is taken. Nothing to avoid: the right one.
 */
export function loupeCorner(stage: Size, avoid: readonly ScreenPoint[]): LoupeCorner {
  const gap = (corner: LoupeCorner, at: ScreenPoint) => gapTo(corner, stage, at);
  const isFree = (corner: LoupeCorner) => avoid.every((at) => gap(corner, at) >= NEAR);
  if (isFree('right')) return 'right';
  if (isFree('left')) return 'left';
  const [first] = avoid;
  return first === undefined || gap('right', first) >= gap('left', first) ? 'right' : 'left';
}

/** From a place on the stage to the enlarged view in a corner; 0 under it. */
function gapTo(corner: LoupeCorner, stage: Size, at: ScreenPoint): number {
  const left = corner === 'left' ? MARGIN : stage.width - MARGIN - LOUPE_ROOM;
  const top = stage.height - MARGIN - LOUPE_ROOM;
  return Math.hypot(outside(at.left, left), outside(at.top, top));
}

function outside(value: number, from: number): number {
  return Math.max(0, from - value, value - (from + LOUPE_ROOM));
}
