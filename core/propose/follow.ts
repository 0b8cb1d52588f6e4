import type { LostWhy } from '../model/followed.ts';
import type { PicturePoint } from '../model/mark.ts';
import { bestPlace, likeness } from './likeness.ts';
import { shiftOf } from './lucas-kanade.ts';
import type { Luma } from './luma.ts';
import { pyramidOf, type Pyramid } from './pyramid.ts';
import { changeWindow, plainWindow, type Window } from './window.ts';

/** A picture, and where the thing is on it: pixel (0, 0) covers 0 to 1. */
export interface Sight {
  readonly picture: Luma;
  readonly at: PicturePoint;
}

/** What is followed, as far as it has come. */
export interface Following {
  /** The sight that later ones are compared with, so that small errors do not add up. */
  readonly anchor: Sight;
  readonly last: Sight;
  /** What it moved by last, pixels a frame. */
  readonly speed: PicturePoint;
}

export interface FollowSize {
  readonly width: number;
  readonly height: number;
  /** How far round its place the thing is looked at, samples; a whole number >= 3. */
  readonly radius: number;
}

/** Halvings of the picture. */
const LEVELS = 4;
/** Farther than so many radii in one frame nothing is looked for. */
const FARTHEST = 8;
/** There and back again must lead to where it began, pixels. */
const WAY_BACK = 0.7;
/** Less alike is something else: compared with the anchor, with the sight before, and after a search by template. */
const ALIKE = { anchor: 0.9, before: 0.8, far: 0.88 } as const;
/** After a search the place must be more alike by this much than any other. */
const CLEARLY = 0.06;
/** What has not moved farther than this, and looks like this at its middle, is at rest, whatever moves beside it. */
const AT_REST = { within: 0.7, alike: 0.92 } as const;

export function beginFollowing(sight: Sight): Following {
  return { anchor: sight, last: sight, speed: { x: 0, y: 0 } };
}

/**
 * Follows a thing to the next picture: pyramidal Lucas-Kanade there and back from the anchor, else from the sight before, which
 * then is the anchor; else a search by template (normalised cross-correlation) round where it should be by its speed, and
 * Lucas-Kanade again. Where none of it holds the thing is lost, and why is said.
 */
export function followStep(
  following: Following,
  picture: Luma,
  size: FollowSize,
): Following | { readonly lost: LostWhy } {
  const { anchor, last, speed } = following;
  const ahead = { x: last.at.x + speed.x, y: last.at.y + speed.y };
  const rests = atRest(anchor, last, picture, size);
  const found =
    rests ??
    tryAt(anchor, { picture, at: ahead }, size, ALIKE.anchor) ??
    tryAt(anchor, { picture, at: last.at }, size, ALIKE.anchor);
  if (found !== null) return going(anchor, last, { picture, at: found }, size);
  const near =
    tryAt(last, { picture, at: ahead }, size, ALIKE.before) ??
    tryAt(last, { picture, at: last.at }, size, ALIKE.before);
  const other = near ?? search(last, { picture, at: ahead }, size);
  return 'lost' in other ? other : going(last, last, { picture, at: other }, size);
}

function going(anchor: Sight, last: Sight, next: Sight, { width, height }: FollowSize): ReturnType<typeof followStep> {
  const { x, y } = next.at;
  if (x < 0 || y < 0 || x > width || y > height) return { lost: 'out of the picture' };
  return { anchor, last: next, speed: { x: x - last.at.x, y: y - last.at.y } };
}

/** A piece of a picture round a place, and the place in its samples. */
interface Near {
  readonly pyramid: Pyramid;
  readonly at: PicturePoint;
  readonly left: number;
  readonly top: number;
}

/** Samples have their middle at half a pixel. `round`: where the piece has its middle. */
function near(picture: Luma, at: PicturePoint, round: PicturePoint, size: FollowSize): Near {
  const half = 2 ** (LEVELS - 1) * (size.radius + 2);
  const [left, top] = [Math.round(round.x) - half, Math.round(round.y) - half];
  const pyramid = pyramidOf(picture, size, { left, top, width: 2 * half, height: 2 * half }, LEVELS);
  return { pyramid, at: { x: at.x - 0.5 - left, y: at.y - 0.5 - top }, left, top };
}

/** Lucas-Kanade from one sight to about where it should be, there and back; null where the two do not agree, or it looks otherwise. */
function tryAt(from: Sight, to: Sight, size: FollowSize, alike: number, levels = LEVELS): PicturePoint | null {
  const one = near(from.picture, from.at, from.at, size);
  const other = near(to.picture, to.at, to.at, size);
  const cut = (all: Pyramid): Pyramid => all.slice(0, levels);
  const stays = near(to.picture, from.at, from.at, size).pyramid;
  const windows = (level: number): Window => changeWindow(one.pyramid, stays, one.at, level, size.radius);
  const there = shiftOf(cut(one.pyramid), cut(other.pyramid), one.at, other.at, windows);
  if (there === null) return null;
  const found = { x: there.x + 0.5 + other.left, y: there.y + 0.5 + other.top };
  const was = near(from.picture, found, to.at, size).pyramid;
  const backWindows = (level: number): Window => changeWindow(other.pyramid, was, there, level, size.radius);
  const back = shiftOf(cut(other.pyramid), cut(one.pyramid), there, one.at, backWindows);
  if (back === null || Math.hypot(back.x - one.at.x, back.y - one.at.y) > WAY_BACK) return null;
  const [fine, fineThere] = [one.pyramid[0], other.pyramid[0]];
  if (fine === undefined || fineThere === undefined) return null;
  return likeness(fine, one.at, fineThere, there, windows(0)) < alike ? null : found;
}

/** What lies still is looked at closely, as something else may move beside it; null where it does not lie still. */
function atRest(anchor: Sight, last: Sight, picture: Luma, size: FollowSize): PicturePoint | null {
  if (Math.hypot(last.at.x - anchor.at.x, last.at.y - anchor.at.y) > AT_REST.within) return null;
  const one = near(anchor.picture, anchor.at, anchor.at, size);
  const other = near(picture, last.at, anchor.at, size);
  const window = plainWindow(Math.ceil(size.radius / 2));
  const there = shiftOf(one.pyramid.slice(0, 1), other.pyramid.slice(0, 1), one.at, other.at, () => window);
  if (there === null || Math.hypot(there.x - one.at.x, there.y - one.at.y) > AT_REST.within) return null;
  const [fine, fineThere] = [one.pyramid[0], other.pyramid[0]];
  if (fine === undefined || fineThere === undefined) return null;
  if (likeness(fine, one.at, fineThere, there, window) < AT_REST.alike) return null;
  return { x: there.x + 0.5 + other.left, y: there.y + 0.5 + other.top };
}

/** The template is looked for in pictures of half the size. */
function search(from: Sight, to: Sight, size: FollowSize): PicturePoint | { readonly lost: LostWhy } {
  const wide = { ...size, radius: Math.ceil((FARTHEST * size.radius) / 2 ** (LEVELS - 2)) };
  const one = near(from.picture, from.at, from.at, size);
  const stays = near(to.picture, from.at, from.at, size).pyramid;
  const other = near(to.picture, to.at, to.at, wide);
  const [half, halfThere] = [one.pyramid[1], other.pyramid[1]];
  if (half === undefined || halfThere === undefined) return { lost: 'nothing to hold on to' };
  const window = changeWindow(one.pyramid, stays, one.at, 1, Math.ceil(size.radius / 2) + 2);
  const place = (at: PicturePoint): PicturePoint => ({ x: at.x / 2, y: at.y / 2 });
  const best = bestPlace([half, place(one.at)], [halfThere, place(other.at)], window, {
    reach: Math.ceil((FARTHEST * size.radius) / 2),
    apart: size.radius / 2,
  });
  if (best.likeness <= 0) return { lost: 'nothing to hold on to' };
  if (best.likeness < ALIKE.far || best.likeness - best.next < CLEARLY) return { lost: 'looks like nothing there' };
  const at = { x: 2 * best.at.x + 0.5 + other.left, y: 2 * best.at.y + 0.5 + other.top };
  return tryAt(from, { ...to, at }, size, ALIKE.far, 2) ?? { lost: 'not the same way back' };
}
