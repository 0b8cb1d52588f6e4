import type { LumaClip } from './luma.ts';

/** The stretch about the ball in which the clubhead stands at address, parts of the picture's height. */
const ROUND = { aside: 0.07, above: 0.07, below: 0.025 } as const;
/** Two pictures are compared that are this part of the way back apart: a club that only just moves must show. */
const APART = 1 / 20;
/** From this part of the way back on the club is away for certain. */
const AWAY = 0.7;
/** What is left of the club's own difference when it has left. */
const LEFT = 0.4;
/** It is still where pictures differ by no more than this many times as much as where they differ least. */
const STILL_TIMES = 1.5;
/** A hand that is never quite calm moves the club by less than this part of how much it moves when it leaves. */
const OF_LEAVING = 0.05;
/** From rest to leaving it takes no longer than this part of the way back; after a calm before that it was waggled. */
const LONGEST = 0.4;
/** It must be still for this part of the way back, and no less than so many frames. */
const STILL_FOR = { part: 0.04, frames: 3 } as const;
/** A picture at rest is the mean of no more than this part of the way back, and of at least so many frames. */
const REST = { part: 0.2, frames: 4 } as const;
/** A difference from the picture at rest of so many times that of two pictures at rest is motion, once it lasts so long. */
const MOVED_TIMES = 1.12;
const LASTS = 3;
/** The club must stand out by so many times the noise for what it shows to be sure. */
const CLEAR_TIMES = 4;

/** When the club begins to move for good. */
export interface ClubStart {
  /** The last frame on which it stands as at rest. */
  readonly frame: number;
  /** Frames at rest, both included, up to that one. */
  readonly rest: { readonly from: number; readonly to: number };
  /** It rests, and stands out well from the ground, so that its first motion shows. */
  readonly clear: boolean;
}

/** Pixels of the clip's pictures, whole numbers, both included. */
interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * The first lasting motion of the club, seen where the ball lies and nowhere else: a sway or a turn of the head is none. A waggle
 * is none either, as the club comes to rest after it: what counts is the last rest before it leaves. Null where it never
 * rests, or where nothing is seen to leave.
 *
 * @param ball its place in the clip's pictures
 * @param back how long the way back takes, about, frames
 * @param top the club is at its highest; `clip` has all frames up to it, from well before the way back
 */
export function findClubStart(
  clip: LumaClip,
  ball: { readonly x: number; readonly y: number },
  { back, top }: { readonly back: number; readonly top: number },
): ClubStart | null {
  if (back < 6) return null;
  const box = boxRound(ball, clip);
  const cuts: Float32Array[] = [];
  for (let frame = clip.from; frame <= top; frame += 1) cuts.push(cut(clip, frame, box));
  const gone = meanOf(cuts, Math.round(top - (1 - AWAY) * back) - clip.from, top - clip.from);
  const shows = cuts.map((each) => difference(each, gone));
  const apart = Math.max(1, Math.round(APART * back));
  const changes = cuts.map((each, at) => difference(each, cuts[Math.max(0, at - apart)] ?? each));
  const noise = lowest(changes.slice(apart));
  const most = usualHigh(shows.slice(0, Math.round(top - (1 - AWAY / 2) * back) - clip.from));
  const left = shows.findLastIndex((value) => value > noise / 2 + LEFT * (most - noise / 2));
  const still = Math.max(STILL_FOR.frames, Math.round(STILL_FOR.part * back));
  const leaving = Math.max(...changes.slice(0, left + 1));
  const limits = [STILL_TIMES * noise, Math.max(STILL_TIMES * noise, OF_LEAVING * leaving)];
  const [calm, nearly] = limits.map((limit) => lastRest(changes, { left, still, limit }));
  const isCalm = calm !== null && calm !== undefined && left - calm <= LONGEST * back;
  const end = (isCalm ? calm : nearly) ?? null;
  // What is as high as that is the rest at the top, and the club was never seen to leave.
  if (end === null || end + clip.from > top - (1 - AWAY) * back) return null;
  const quiet = limits[isCalm ? 0 : 1] ?? 0;
  const used = Math.max(REST.frames, Math.round(REST.part * back));
  // The last frames of a rest may be the first of the motion, too little yet to show between two pictures.
  let to = end;
  let from = end;
  while (from > 0 && to - from + 1 < used && (changes[from - 1] ?? Infinity) <= quiet) {
    from -= 1;
    if (to > end - apart) to -= 1;
  }
  const count = to - from + 1;
  const rest = meanOf(cuts, from, to);
  // One picture against a mean of `count` others that it is not among: noise of both.
  const limit = MOVED_TIMES * (quiet / STILL_TIMES / 2) * (1 + 1 / count);
  const isAway = (at: number): boolean =>
    cuts.slice(at, Math.min(at + LASTS, left + 1)).every((each) => difference(each, rest) > limit);
  let frame = to;
  while (frame < left && !isAway(frame + 1)) frame += 1;
  return {
    frame: clip.from + frame,
    rest: { from: clip.from + from, to: clip.from + to },
    clear: isCalm && most > CLEAR_TIMES * noise,
  };
}

function boxRound({ x, y }: { readonly x: number; readonly y: number }, { width, height }: LumaClip): Box {
  return {
    left: Math.max(0, Math.round(x - ROUND.aside * height)),
    right: Math.min(width - 1, Math.round(x + ROUND.aside * height)),
    top: Math.max(0, Math.round(y - ROUND.above * height)),
    bottom: Math.min(height - 1, Math.round(y + ROUND.below * height)),
  };
}

/** The samples of a box, less their mean: light that flickers is no motion. */
function cut(clip: LumaClip, frame: number, { left, right, top, bottom }: Box): Float32Array {
  const picture = clip.at(frame);
  const wide = right - left + 1;
  const samples = new Float32Array(wide * (bottom - top + 1));
  let sum = 0;
  for (let y = top; y <= bottom; y += 1)
    for (let x = left; x <= right; x += 1) {
      const value = picture[y * clip.width + x] ?? 0;
      samples[(y - top) * wide + x - left] = value;
      sum += value;
    }
  const mean = sum / samples.length;
  for (let at = 0; at < samples.length; at += 1) samples[at] = (samples[at] ?? 0) - mean;
  return samples;
}

/** The mean of squared differences, grey values squared. */
function difference(one: Float32Array, other: Float32Array): number {
  let sum = 0;
  for (let at = 0; at < one.length; at += 1) sum += ((one[at] ?? 0) - (other[at] ?? 0)) ** 2;
  return sum / one.length;
}

function meanOf(cuts: readonly Float32Array[], from: number, to: number): Float32Array {
  const first = cuts[Math.max(0, from)];
  if (first === undefined) throw new Error(`no picture ${String(from)}`);
  const sum = new Float32Array(first.length);
  const used = cuts.slice(Math.max(0, from), to + 1);
  for (const each of used)
    for (let at = 0; at < sum.length; at += 1) sum[at] = (sum[at] ?? 0) + (each[at] ?? 0) / used.length;
  return sum;
}

/** What two pictures of a clip differ by where nothing moves: a tenth of them differ by less. Above 0. */
function lowest(changes: readonly number[]): number {
  const sorted = changes.toSorted((one, other) => one - other);
  return Math.max(0.25, sorted[Math.floor(sorted.length / 10)] ?? 0);
}

/** What a fifth of the values exceed: a club that rests shows as much, somebody who walks by shows more. */
function usualHigh(values: readonly number[]): number {
  return values.toSorted((one, other) => one - other)[Math.floor(0.8 * values.length)] ?? 0;
}

/** The last frame of the last rest before the club has left; null: it never rests. */
function lastRest(
  changes: readonly number[],
  how: { readonly left: number; readonly still: number; readonly limit: number },
): number | null {
  let run = 0;
  for (let at = how.left; at >= 0; at -= 1) {
    run = (changes[at] ?? Infinity) <= how.limit ? run + 1 : 0;
    if (run >= how.still) return at + run - 1;
  }
  return null;
}
