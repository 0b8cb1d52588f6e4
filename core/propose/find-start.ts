import type { Luma, LumaClip } from './luma.ts';

/** Pictures that stand for the player at rest are the mean of so many. */
const MEAN = 5;
/** A sample that is off the picture at rest by less is noise: one of the two is a mean, so less than between two pictures. */
const NOISE = 9;
/** Away from rest by more than this part of how far the picture is away at top is moving. */
const MOVED = 0.01;
/** So many times as much as pictures at rest are off each other is moving too. */
const REST_TIMES = 1.4;

/**
 * The last frame on which the player still stands as at rest: seen against a picture at rest and not from frame to frame, as
 * a club begins to move far too slowly for that. `clip` begins at rest and goes up to top.
 *
 * @param still frames at its beginning that are at rest for certain, >= 5
 */
export function findStart(clip: LumaClip, still: number, top: number): number {
  const rest = new Float32Array(clip.width * clip.height);
  for (let frame = clip.from; frame < clip.from + MEAN; frame += 1) {
    const picture = clip.at(frame);
    for (let at = 0; at < rest.length; at += 1) rest[at] = (rest[at] ?? 0) + (picture[at] ?? 0) / MEAN;
  }
  const away: number[] = [];
  for (let frame = clip.from; frame <= top; frame += 1) away.push(awayFrom(rest, clip.at(frame)));
  const calm = Math.max(...away.slice(0, Math.max(MEAN, still)));
  const limit = Math.max(REST_TIMES * calm, calm + MOVED * (away.at(-1) ?? 0));
  const last = away.findLastIndex((value) => value <= limit);
  return clip.from + Math.max(0, last);
}

function awayFrom(rest: Float32Array, picture: Luma): number {
  let sum = 0;
  for (let at = 0; at < rest.length; at += 1) {
    const off = Math.abs((rest[at] ?? 0) - (picture[at] ?? 0));
    if (off > NOISE) sum += off - NOISE;
  }
  return sum / rest.length;
}
