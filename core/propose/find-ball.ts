import type { Luma, LumaClip } from './luma.ts';
import { patches, type Patch } from './patches.ts';

/** Where the ball lay, and when it was gone. */
export interface StruckBall {
  /** The last frame that shows it at rest. */
  readonly frame: number;
  /** The part of frames, 0 to 1, that agree: there before, gone after. */
  readonly agree: number;
  /** How much it looks like a ball that was struck, 0 to 1: by contrast, by how sudden it went, by how many frames agree. */
  readonly likeness: number;
  /** Of the pictures that were searched, pixels. */
  readonly x: number;
  readonly y: number;
}

/** A sample is changed for good by at least this much where the ball was; grey values. */
const CHANGED = 25;
/** The ball stands out by at least this much from what is round it; and where it was, it looks like that afterwards. */
const CONTRAST = 18;
const LIKE_ROUND = 0.4;
/** Where the brightness between there and gone counts as there, and as gone. */
const THERE = 0.6;
const GONE = 0.4;
const HALF = 0.5;
/** Frames about the strike that may be either: the club passes over the ball. */
const EITHER = 2;
/** How much a ball counts that is there before those frames and gone after them, and goes little by little. */
const OVER_FEW = 0.5;
/** Frames over which a picture before, and one after, is averaged. */
const MEAN = 5;
/** Least part of the frames that must agree. */
const LEAST_AGREE = 0.9;
/** What looks less like a ball is none. */
const LEAST_LIKENESS = 0.3;
/** A contrast of so much is half of what tells a ball, grey values. */
const HALF_CONTRAST = 25;
/** The ball lies on the ground: below this part of the picture's height (common practice in filming a swing). */
const HIGHEST = 0.45;

/**
 * The ball, if one is struck between two frames: something small that stands out from what is round it, lies still, and is gone from
 * one frame to the next for good, leaving what was round it. Null where there is none: a practice swing, a ball that is
 * covered, a shaking camera.
 *
 * @param top a frame at which the ball still lies; the frame of least motion
 * @param end a frame by which it is gone
 */
export function findStruckBall(clip: LumaClip, top: number, end: number): StruckBall | null {
  const from = Math.max(clip.from, top - EITHER);
  const last = Math.min(clip.to - 1, end);
  if (last - from < 2 * MEAN) return null;
  const before = meanOf(clip, from, from + MEAN - 1);
  const after = meanOf(clip, last - MEAN + 1, last);
  let best: StruckBall | null = null;
  for (const patch of patches(before, after, clip, CHANGED)) {
    const there = levelIn(before, patch);
    const gone = levelIn(after, patch);
    const contrast = there - patch.roundBefore;
    if (
      patch.y < HIGHEST * clip.height ||
      contrast < CONTRAST ||
      Math.abs(gone - patch.roundAfter) > LIKE_ROUND * contrast
    )
      continue;
    const found = whenGone(clip, patch, { there, gone, from, last });
    const likeness = (found.agree * found.step * contrast) / (contrast + HALF_CONTRAST);
    if (found.agree < LEAST_AGREE || likeness <= (best?.likeness ?? LEAST_LIKENESS)) continue;
    best = { frame: found.frame, agree: found.agree, likeness, x: patch.x, y: patch.y };
  }
  return best;
}

interface Levels {
  readonly there: number;
  readonly gone: number;
  readonly from: number;
  readonly last: number;
}

/** The frame after which the patch is gone, by what most frames say, and then by the steepest step about it. */
function whenGone(
  clip: LumaClip,
  patch: Patch,
  { there, gone, from, last }: Levels,
): { readonly frame: number; readonly agree: number; readonly step: number } {
  const shown: number[] = [];
  for (let frame = from; frame <= last; frame += 1)
    shown.push((levelIn(clip.at(frame), patch) - gone) / (there - gone));
  let best = { at: 0, agree: -1 };
  for (let at = 1; at < shown.length - 1; at += 1) {
    const judged = shown.flatMap((value, place) => {
      if (place > at - EITHER && place <= at + EITHER) return [];
      return [place <= at ? value > THERE : value < GONE];
    });
    const agree = judged.filter(Boolean).length / Math.max(1, judged.length);
    if (agree > best.agree || (agree === best.agree && stepAt(shown, at) > stepAt(shown, best.at)))
      best = { at, agree };
  }
  // Where the club covers it for a frame it is there once more: its last frame counts.
  const isLast = (place: number): boolean => (shown[place] ?? 0) > HALF && (shown[place + 1] ?? 0) <= HALF;
  let at = best.at;
  for (let near = Math.max(0, best.at - EITHER); near <= Math.min(shown.length - 2, best.at + EITHER); near += 1)
    if (isLast(near)) at = near;
  return { frame: from + at, agree: best.agree, step: Math.min(1, Math.max(0, howSudden(shown, at))) };
}

/** From one frame to the next, and half as much over a few: a club may cover a ball little by little before it strikes it. */
function howSudden(shown: readonly number[], at: number): number {
  const over = (shown[Math.max(0, at - EITHER)] ?? 0) - (shown[Math.min(shown.length - 1, at + 1 + EITHER)] ?? 0);
  return Math.max(stepAt(shown, at), OVER_FEW * over);
}

const stepAt = (shown: readonly number[], at: number): number => (shown[at] ?? 0) - (shown[at + 1] ?? 0);

function levelIn(picture: Luma | Float32Array, { samples }: Patch): number {
  let sum = 0;
  for (const at of samples) sum += picture[at] ?? 0;
  return sum / samples.length;
}

function meanOf(clip: LumaClip, from: number, to: number): Float32Array {
  const sum = new Float32Array(clip.width * clip.height);
  for (let frame = from; frame <= to; frame += 1) {
    const picture = clip.at(frame);
    for (let at = 0; at < sum.length; at += 1) sum[at] = (sum[at] ?? 0) + (picture[at] ?? 0);
  }
  for (let at = 0; at < sum.length; at += 1) sum[at] = (sum[at] ?? 0) / (to - from + 1);
  return sum;
}
