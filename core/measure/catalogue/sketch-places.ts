import type { Edges } from '../../geometry/box.ts';
import type { BoxShape, PicturePoint } from '../../model/mark.ts';

/** Where the endless lines a-b and c-d meet; null when they run alike or one has no length. */
export function meetingOf(a: PicturePoint, b: PicturePoint, c: PicturePoint, d: PicturePoint): PicturePoint | null {
  const [first, second] = [offset(a, b), offset(c, d)];
  const cross = first.x * second.y - first.y * second.x;
  if (cross === 0) return null;
  const toC = offset(a, c);
  return from(a, first, (toC.x * second.y - toC.y * second.x) / cross);
}

/** The shortest piece of the line a-b that holds a, b and `at`, which lies on it. */
export function covering(a: PicturePoint, b: PicturePoint, at: PicturePoint): readonly [PicturePoint, PicturePoint] {
  const way = offset(a, b);
  const part = dot(offset(a, at), way) / dot(way, way);
  if (part < 0) return [at, b];
  return part > 1 ? [a, at] : [a, b];
}

/** The place on the edge (or its continuation) from which `beyondEdges` counts. */
export function onNearestEdge({ x, y }: PicturePoint, box: BoxShape): PicturePoint {
  const [right, bottom] = [box.x + box.width, box.y + box.height];
  const edges = [
    { beyond: box.x - x, at: { x: box.x, y } },
    { beyond: x - right, at: { x: right, y } },
    { beyond: box.y - y, at: { x, y: box.y } },
    { beyond: y - bottom, at: { x, y: bottom } },
  ];
  return edges.reduce((most, edge) => (edge.beyond > most.beyond ? edge : most)).at;
}

/** The place on the edge of a box beside which another box reaches farthest, as `boxBeyondEdges` counts, and its own there. */
export function farthestOut(inner: Edges, box: BoxShape): { readonly edge: PicturePoint; readonly out: PicturePoint } {
  const [right, bottom] = [box.x + box.width, box.y + box.height];
  const [x, y] = [(inner.left + inner.right) / 2, (inner.top + inner.bottom) / 2];
  const sides = [
    { beyond: box.x - inner.left, edge: { x: box.x, y }, out: { x: inner.left, y } },
    { beyond: inner.right - right, edge: { x: right, y }, out: { x: inner.right, y } },
    { beyond: box.y - inner.top, edge: { x, y: box.y }, out: { x, y: inner.top } },
    { beyond: inner.bottom - bottom, edge: { x, y: bottom }, out: { x, y: inner.bottom } },
  ];
  return sides.reduce((most, side) => (side.beyond > most.beyond ? side : most));
}

const OVAL_PLACES = 48;

/** An oval that touches all four edges, as places close to one another. */
export function ovalIn({ left, right, top, bottom }: Edges): readonly PicturePoint[] {
  return Array.from({ length: OVAL_PLACES + 1 }, (_, i) => {
    const phase = (2 * Math.PI * i) / OVAL_PLACES;
    const [x, y] = [(right - left) * Math.cos(phase), (bottom - top) * Math.sin(phase)];
    return { x: (left + right + x) / 2, y: (top + bottom + y) / 2 };
  });
}

export function offset(a: PicturePoint, b: PicturePoint): PicturePoint {
  return { x: b.x - a.x, y: b.y - a.y };
}

export function gap(a: PicturePoint, b: PicturePoint): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

export function dot(a: PicturePoint, b: PicturePoint): number {
  return a.x * b.x + a.y * b.y;
}

export function middle(a: PicturePoint, b: PicturePoint): PicturePoint {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/** Of length 1, or 0 where the places are the same. */
export function directionOf(a: PicturePoint, b: PicturePoint): PicturePoint {
  const whole = gap(a, b);
  return whole === 0 ? { x: 0, y: 0 } : { x: (b.x - a.x) / whole, y: (b.y - a.y) / whole };
}

export function from(start: PicturePoint, direction: PicturePoint, far: number): PicturePoint {
  return { x: start.x + direction.x * far, y: start.y + direction.y * far };
}
