import type { PicturePoint } from '../model/mark.ts';
import { carryingBetween, standingAt } from './carry-shapes.ts';
import type { Carrying, ClipOfPlayer } from './carry-shapes.ts';

/** From one picture's pixels to another's: x' = a x + c y + e, y' = b x + d y + f, in the order that a canvas takes them. */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

/** How then's picture lies on now's, both of one view. */
export interface LaidOver {
  /** ground: by ball and feet at address. size: by the size of the picture, since ball and feet are not placed in both. */
  readonly by: Extract<Carrying['by'], 'ground' | 'size'>;
  /** Whether `over` turns the picture left to right, since the players play from different sides. */
  readonly mirrored: boolean;
  /** Ball on ball and feet on feet as well as may be, turned as that needs. */
  readonly over: Affine;
  /**
   * As large and in the same place, but upright as it was filmed and never mirrored: for two pictures beside each other, whose
   * lean against the vertical must stay what it was.
   */
  readonly beside: Affine;
}

/** null for clips of different views, which have no ground in common. */
export function layOver(then: ClipOfPlayer, now: ClipOfPlayer): LaidOver | null {
  const carrying = carryingBetween(then, now);
  const { by, mirrored, place, scale } = carrying;
  if (by !== 'ground' && by !== 'size') return null;
  const over = affineOf(place);
  // Where the player stands at address lies in the same place in both, whatever the turn takes away.
  const stand = standOf(then) ?? { x: then.clip.width / 2, y: then.clip.height / 2 };
  const at = place(stand);
  const beside = { a: scale, b: 0, c: 0, d: scale, e: at.x - scale * stand.x, f: at.y - scale * stand.y };
  return { by, mirrored, over, beside };
}

export function placeBy({ a, b, c, d, e, f }: Affine, { x, y }: PicturePoint): PicturePoint {
  return { x: a * x + c * y + e, y: b * x + d * y + f };
}

/** Of a map that keeps straight lines and what divides them: three places tell it. */
function affineOf(place: (at: PicturePoint) => PicturePoint): Affine {
  const [start, right, down] = [place({ x: 0, y: 0 }), place({ x: 1, y: 0 }), place({ x: 0, y: 1 })];
  return {
    ...{ a: right.x - start.x, b: right.y - start.y },
    ...{ c: down.x - start.x, d: down.y - start.y },
    ...{ e: start.x, f: start.y },
  };
}

/** The middle of ball and feet at address; null where none of them is placed. */
function standOf({ clip }: ClipOfPlayer): PicturePoint | null {
  const placed = standingAt(clip);
  if (placed.length === 0) return null;
  const sum = placed.reduce((all, { x, y }) => ({ x: all.x + x, y: all.y + y }), { x: 0, y: 0 });
  return { x: sum.x / placed.length, y: sum.y / placed.length };
}
