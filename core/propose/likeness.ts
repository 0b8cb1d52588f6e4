import type { PicturePoint } from '../model/mark.ts';
import { valueAt, type Piece } from './pyramid.ts';
import type { Window } from './window.ts';

/**
 * How much what lies round one place looks like what lies round another: normalised cross-correlation, -1 to 1, whatever the
 * brightness and contrast; 0 where one of them is plain.
 */
export function likeness(
  from: Piece,
  at: PicturePoint,
  to: Piece,
  there: PicturePoint,
  { radius, weights }: Window,
): number {
  const side = 2 * radius + 1;
  let [all, a, b, aa, bb, ab] = [0, 0, 0, 0, 0, 0];
  for (let place = 0; place < side * side; place += 1) {
    const weight = weights[place] ?? 0;
    if (weight === 0) continue;
    const [x, y] = [(place % side) - radius, Math.floor(place / side) - radius];
    const one = valueAt(from, at.x + x, at.y + y);
    const other = valueAt(to, there.x + x, there.y + y);
    all += weight;
    a += weight * one;
    b += weight * other;
    aa += weight * one * one;
    bb += weight * other * other;
    ab += weight * one * other;
  }
  if (all === 0) return 0;
  const [spreadOne, spreadOther] = [aa - (a * a) / all, bb - (b * b) / all];
  // Less than half a grey value of contrast is none.
  if (spreadOne < 0.25 * all || spreadOther < 0.25 * all) return 0;
  return (ab - (a * b) / all) / Math.sqrt(spreadOne * spreadOther);
}

/** The most alike place, and the most alike of those that lie elsewhere. */
export interface BestPlace {
  readonly at: PicturePoint;
  readonly likeness: number;
  readonly next: number;
}

/**
 * Looks for what lies round `at` in another piece: at every whole sample within `reach` of `round`. What lies within `apart` of
 * the best place is the same place.
 */
export function bestPlace(
  [from, at]: readonly [Piece, PicturePoint],
  [to, round]: readonly [Piece, PicturePoint],
  window: Window,
  { reach, apart }: { readonly reach: number; readonly apart: number },
): BestPlace {
  const tried: { readonly at: PicturePoint; readonly likeness: number }[] = [];
  for (let y = -reach; y <= reach; y += 1)
    for (let x = -reach; x <= reach; x += 1) {
      if (x * x + y * y > reach * reach) continue;
      const there = { x: round.x + x, y: round.y + y };
      tried.push({ at: there, likeness: likeness(from, at, to, there, window) });
    }
  const best = tried.reduce((one, other) => (other.likeness > one.likeness ? other : one));
  const next = tried.reduce(
    (most, each) =>
      Math.hypot(each.at.x - best.at.x, each.at.y - best.at.y) > apart ? Math.max(most, each.likeness) : most,
    -1,
  );
  return { ...best, next };
}
