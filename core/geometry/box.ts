import type { PicturePoint } from '../model/mark.ts';
import { offset } from './point.ts';
import type { SwingPoint } from './point.ts';

/** An upright box by its edges in picture pixels, left <= right, top <= bottom. */
export interface Edges {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function edgesOf(box: { x: number; y: number; width: number; height: number }): Edges {
  return { left: box.x, top: box.y, right: box.x + box.width, bottom: box.y + box.height };
}

/** The corners of an upright box, clockwise from the upper left. */
export function cornersOf(box: Parameters<typeof edgesOf>[0]): readonly PicturePoint[] {
  const { left, top, right, bottom } = edgesOf(box);
  return [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
}

/** Its outline, back to where it begins. */
export function outlineOf(box: Parameters<typeof edgesOf>[0]): readonly PicturePoint[] {
  const corners = cornersOf(box);
  return [...corners, ...corners.slice(0, 1)];
}

/** A box as the player has it, upright by the true vertical: its middle, and half of its sides, pixels >= 0. */
export interface UprightBox {
  readonly middle: SwingPoint;
  readonly halfAlong: number;
  readonly halfUp: number;
}

/** A box of the picture, set upright about its middle. `swing`: what the picture's places are to the player. */
export function uprightBox(
  { left, top, right, bottom }: Edges,
  swing: (place: PicturePoint) => SwingPoint,
): UprightBox {
  const middle = swing({ x: (left + right) / 2, y: (top + bottom) / 2 });
  return { middle, halfAlong: (right - left) / 2, halfUp: (bottom - top) / 2 };
}

/** A place as a box of no size. */
export function boxOfNoSize(middle: SwingPoint): UprightBox {
  return { middle, halfAlong: 0, halfUp: 0 };
}

/**
 * How far the side of `inner` that is farthest out lies beyond that side of `box`, in pixels: > 0 outside, 0 on the edge,
 * < 0 inside, where it is the distance to the nearest edge. Beyond a corner the larger of the two overshoots counts, not the
 * diagonal: it is the way that `inner` must come back to be inside.
 */
export function beyondBox(inner: UprightBox, box: UprightBox): number {
  const { along, up } = offset(box.middle, inner.middle);
  return Math.max(Math.abs(along) + inner.halfAlong - box.halfAlong, Math.abs(up) + inner.halfUp - box.halfUp);
}
