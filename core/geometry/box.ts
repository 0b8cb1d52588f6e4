import type { PicturePoint } from '../model/mark.ts';

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

/**
 * How far `point` lies beyond the edge it is farthest beyond, in pixels: > 0 outside, 0 on the edge, < 0 inside, where
 * it is the distance to the nearest edge. Beyond a corner the larger of the two overshoots counts, not the diagonal:
 * it is the way the point must come back to be inside.
 */
export function beyondEdges(point: PicturePoint, edges: Edges): number {
  return Math.max(edges.left - point.x, point.x - edges.right, edges.top - point.y, point.y - edges.bottom);
}

/** The same for a box that should lie within another: how far its edge that is farthest out lies beyond the other's. */
export function boxBeyondEdges(inner: Edges, edges: Edges): number {
  return Math.max(
    edges.left - inner.left,
    inner.right - edges.right,
    edges.top - inner.top,
    inner.bottom - edges.bottom,
  );
}
