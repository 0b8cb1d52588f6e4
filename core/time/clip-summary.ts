import type { FrameSpan } from '../model/frame.ts';
import type { ClipIndex, LeftOut } from './clip-index.ts';
import { ticksToSeconds } from './rational.ts';
import { slownessOf } from './swing-clock.ts';

/** What a coach is told of a clip before it is added. */
export interface ClipSummary {
  readonly frameCount: number;
  /** How long it plays, > 0. */
  readonly seconds: number;
  /** As displayed. */
  readonly width: number;
  readonly height: number;
  /** Of the file. */
  readonly bytes: number;
  /** Whether to offer keeping a part of it. */
  readonly long: boolean;
  /** Where the swing is likely to be, in a long clip; null in others. */
  readonly suggestedSpan: FrameSpan | null;
  /** When each frame comes on screen, seconds after the first. */
  readonly times: readonly number[];
  /** Pictures of the file that are no frames. */
  readonly leftOut: LeftOut | null;
  /** Frames with a key picture, at which a part can begin, rising. */
  readonly keys: readonly number[];
}

/**
 * Above either a clip is long. 30 seconds: from waiting over the ball to the finish no swing takes longer, so the rest is
 * a camera left running. 2,000 frames: what a swing of 8 seconds has at 240 a second; the copy for moving through more
 * frames takes hundreds of megabytes and minutes to make.
 */
export const LONG_SECONDS = 30;
export const LONG_FRAMES = 2000;

/**
 * Suggested of a long clip: its last 8 seconds, from the key picture before on, where the kept file begins anyway. Whoever films a swing stops the camera soon after it, while how long it
 * ran before is anyone's guess; a swing takes 2 seconds, the rest is setting up and holding the finish. It is no more
 * than a first place for the two ends.
 */
export const SUGGESTED_SECONDS = 8;

export function summariseClip(index: ClipIndex, bytes: number): ClipSummary {
  const { frames, timebase, width, height, leftOut } = index;
  const start = frames[0]?.pts ?? 0;
  const last = frames.at(-1);
  const seconds = last === undefined ? 0 : ticksToSeconds(last.pts + last.ticks - start, timebase);
  const times = frames.map(({ pts }) => ticksToSeconds(pts - start, timebase));
  const keys = frames.flatMap(({ key }, frame) => (key ? [frame] : []));
  const long = frames.length > LONG_FRAMES || seconds > LONG_SECONDS;
  const from = beginningOf(keys, nearestFrame(times, seconds - SUGGESTED_SECONDS * slownessOf(index)));
  const suggestedSpan = long ? { from, to: frames.length - 1 } : null;
  return { frameCount: frames.length, seconds, width, height, bytes, long, suggestedSpan, times, leftOut, keys };
}

/**
 * The frame whose time lies nearest to `seconds`, of two as near the earlier: a time that was shown rounded and typed back
 * means the frame it stood beside. The first frame for what is no number. `times` as in ClipSummary.
 */
export function nearestFrame(times: readonly number[], seconds: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? Infinity) <= seconds) low = middle + 1;
    else high = middle;
  }
  const [before, after] = [times[low - 1], times[low]];
  if (before === undefined) return 0;
  return after !== undefined && after - seconds < seconds - before ? low : low - 1;
}

/** The frame a kept span is likely to begin at: the last key picture that is not later. `keys` as in ClipSummary. */
export function beginningOf(keys: readonly number[], from: number): number {
  return keys.findLast((key) => key <= from) ?? 0;
}
