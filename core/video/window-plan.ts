/** Which frames to make beside the one asked for. Pure: the numbers of frames go in, a range comes out. */

/** Made before a frame that was jumped to, so that the first steps back are there at once. */
export const BEHIND = 8;
/** Made ahead of the latest request; at 60 steps a second most of a second. */
export const AHEAD = 48;
/** A backward stretch is made as a whole, since decoding only runs forward. */
export const BACK_STRETCH = 64;
/** So near to a frame that is missing, making it begins before it is asked for. */
export const NEAR = 12;

/** Frames `from` to `to`, both included. */
export interface FrameRange {
  readonly from: number;
  readonly to: number;
}

/** The range for a frame that nothing was prepared for: a few before it, and on to the end as far as it is wanted. */
export function jumpRange(frameIndex: number, count: number): FrameRange {
  return { from: Math.max(0, frameIndex - BEHIND), to: count - 1 };
}

/** Whether a run that will next deliver `next` and go on to `to` reaches a frame soon enough to wait for it. */
export function reachesSoon(run: { readonly next: number; readonly to: number }, frameIndex: number): boolean {
  return frameIndex >= run.next && frameIndex <= run.to && frameIndex - run.next <= AHEAD;
}

/**
 * What to prepare when a frame that is there was asked for: the stretch behind it when steps go back, else the frames
 * ahead. Null when nothing near is missing.
 */
export function prepareRange(
  frameIndex: number,
  previous: number | null,
  count: number,
  has: (frameIndex: number) => boolean,
): FrameRange | null {
  const back = previous !== null && frameIndex < previous;
  for (let step = 1; step <= NEAR; step += 1) {
    const missing = back ? frameIndex - step : frameIndex + step;
    if (missing < 0 || missing >= count) return null;
    if (has(missing)) continue;
    return back ? { from: Math.max(0, missing - BACK_STRETCH + 1), to: missing } : { from: missing, to: count - 1 };
  }
  return null;
}
