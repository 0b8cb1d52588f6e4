import { outlineOf } from '../geometry/box.ts';
import type { PicturePoint } from '../model/mark.ts';
import type { Box } from './box.ts';
import type { PlacedItem } from './draw-item.ts';

/** Straight pieces that stand for a whole circle: at most a thousandth of the radius beside it. */
const PIECES_OF_CIRCLE = 90;

/**
 * Where a text belongs that names what is drawn: at its usual place while that shows, else at the middle of that part of the
 * drawn lines that shows and lies nearest to it. null where nothing of it shows, and so nothing is to be named.
 * @param visible in picture coordinates, edges included
 */
export function visiblePlace(at: PicturePoint, drawn: readonly PlacedItem[], visible: Box): PicturePoint | null {
  if (isIn(at, visible)) return at;
  let nearest: { readonly place: PicturePoint; readonly away: number } | null = null;
  for (const piece of drawn.flatMap(outlinesOf).flatMap((outline) => shownPieces(outline, visible))) {
    const place = middleAlong(piece);
    const away = Math.min(...piece.map((point) => Math.hypot(point.x - at.x, point.y - at.y)));
    if (nearest === null || away < nearest.away) nearest = { place, away };
  }
  return nearest?.place ?? null;
}

function isIn({ x, y }: PicturePoint, box: Box): boolean {
  return x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;
}

/** What is stroked, as straight pieces. */
function outlinesOf(item: PlacedItem): readonly (readonly PicturePoint[])[] {
  switch (item.kind) {
    case 'segment':
      return [[item.a, item.b]];
    case 'polyline':
      return [item.points];
    case 'box':
      return [outlineOf(item)];
    case 'circle':
      return [roundPath(item.centre, item.radius, 0, 2 * Math.PI)];
    case 'arc':
    case 'wedge':
      return [roundPath(item.centre, item.radius, item.start, item.end)];
    case 'point':
    case 'place':
    case 'words':
      return [[item.at, item.at]];
  }
}

function roundPath(centre: PicturePoint, radius: number, start: number, end: number): readonly PicturePoint[] {
  const pieces = Math.max(1, Math.ceil((PIECES_OF_CIRCLE * (end - start)) / (2 * Math.PI)));
  return Array.from({ length: pieces + 1 }, (_, piece) => {
    const angle = start + ((end - start) * piece) / pieces;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  });
}

/** The connected parts of a path that lie in the box, each of two places or more. */
function shownPieces(path: readonly PicturePoint[], box: Box): readonly (readonly PicturePoint[])[] {
  const pieces: PicturePoint[][] = [];
  let open: PicturePoint[] | null = null;
  for (const [index, b] of path.entries()) {
    const a = path[index - 1];
    if (a === undefined) continue;
    const part = partInside(a, b, box);
    if (part === null) {
      open = null;
      continue;
    }
    if (open === null) pieces.push((open = [part.from]));
    open.push(part.to);
    if (part.leaves) open = null;
  }
  return pieces;
}

/** The part of a straight line from a to b in the box (Liang and Barsky), and whether it leaves the box before b. */
function partInside(
  a: PicturePoint,
  b: PicturePoint,
  box: Box,
): { readonly from: PicturePoint; readonly to: PicturePoint; readonly leaves: boolean } | null {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  let [enters, exits] = [0, 1];
  for (const [step, room] of [
    [-dx, a.x - box.x],
    [dx, box.x + box.width - a.x],
    [-dy, a.y - box.y],
    [dy, box.y + box.height - a.y],
  ] as const) {
    if (step === 0 && room < 0) return null;
    if (step < 0) enters = Math.max(enters, room / step);
    if (step > 0) exits = Math.min(exits, room / step);
  }
  if (enters > exits) return null;
  const at = (part: number): PicturePoint => ({ x: a.x + part * dx, y: a.y + part * dy });
  return { from: at(enters), to: at(exits), leaves: exits < 1 };
}

/** Half way along a path. */
function middleAlong(path: readonly PicturePoint[]): PicturePoint {
  const lengths = path.slice(1).map((b, index) => {
    const a = path[index] ?? b;
    return Math.hypot(b.x - a.x, b.y - a.y);
  });
  let left = lengths.reduce((sum, length) => sum + length, 0) / 2;
  for (const [index, length] of lengths.entries()) {
    const [a, b] = [path[index], path[index + 1]];
    if (a === undefined || b === undefined) break;
    if (left <= length) {
      const part = length === 0 ? 0 : left / length;
      return { x: a.x + part * (b.x - a.x), y: a.y + part * (b.y - a.y) };
    }
    left -= length;
  }
  return path[0] ?? { x: 0, y: 0 };
}
