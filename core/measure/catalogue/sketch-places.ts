import type { Edges } from '../../geometry/box.ts';
import type { PicturePoint } from '../../model/mark.ts';

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

/**
 * The place at the side of `inner` that is farthest out, as `beyondBox` counts, and the one on that side of `box` from which it
 * counts. `along` and `up`: of length 1, in the picture; boxes are upright by them about their middles.
 */
export function farthestOut(
  inner: Edges,
  box: Edges,
  { along, up }: { readonly along: PicturePoint; readonly up: PicturePoint },
): { readonly edge: PicturePoint; readonly out: PicturePoint } {
  const [own, others] = [middleOf(inner), middleOf(box)];
  const [wide, high] = [inner.right - inner.left, inner.bottom - inner.top];
  const sides = [
    { direction: along, reach: wide / 2, room: (box.right - box.left) / 2 },
    { direction: up, reach: high / 2, room: (box.bottom - box.top) / 2 },
  ].map(({ direction, reach, room }) => {
    const off = dot(offset(others, own), direction);
    const beyond = Math.abs(off) + reach - room;
    const sign = off < 0 ? -1 : 1;
    const out = from(own, direction, sign * reach);
    return { beyond, out, edge: from(out, direction, -sign * beyond) };
  });
  return sides.reduce((most, side) => (side.beyond > most.beyond ? side : most));
}

function middleOf({ left, top, right, bottom }: Edges): PicturePoint {
  return { x: (left + right) / 2, y: (top + bottom) / 2 };
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
