import type { Figure } from '../geometry/figure.ts';
import type { PicturePoint } from '../model/mark.ts';
import type { Handle, HandleName } from './kind.ts';

/** Shapes smaller than this, in picture pixels, are slips of the hand and are not kept. */
export const SMALLEST_SHAPE = 1;

/** Pixels, >= 0. */
export function apart(one: PicturePoint, other: PicturePoint): number {
  return Math.hypot(other.x - one.x, other.y - one.y);
}

export function shifted(at: PicturePoint, by: PicturePoint): PicturePoint {
  return { x: at.x + by.x, y: at.y + by.y };
}

export function middleOf(a: PicturePoint, b: PicturePoint): PicturePoint {
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/** The place under `name`: moved when the whole shape is, or when it is the one that is held. */
export function movedIf(at: PicturePoint, name: HandleName, handle: HandleName | null, by: PicturePoint): PicturePoint {
  return handle === null || handle === name ? shifted(at, by) : { x: at.x, y: at.y };
}

/** A handle for each of several places. */
export function handlesAt(places: readonly PicturePoint[]): readonly Handle[] {
  return places.map(({ x, y }, place) => ({ name: nameOfPlace(place), at: { x, y } }));
}

export function nameOfPlace(place: number): HandleName {
  return `place-${String(place)}`;
}

export function lastOf(places: readonly PicturePoint[]): PicturePoint {
  const { x, y } = places.at(-1) ?? { x: 0, y: 0 };
  return { x, y };
}

/** A dot on each place. */
export function dots(places: readonly PicturePoint[]): readonly Figure[] {
  return places.map(({ x, y }) => ({ kind: 'place', at: { x, y } }));
}

/** The line through the places, with a dot on each. */
export function dottedLine(places: readonly PicturePoint[]): readonly Figure[] {
  return places.length < 2 ? dots(places) : [{ kind: 'curve', points: places }, ...dots(places)];
}
