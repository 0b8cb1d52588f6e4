import type { FrameSpan } from '../../model/frame.ts';
import type { WindowReach } from '../../model/read-ahead.ts';

/** Which frames to make beside the one asked for. Pure: the numbers of frames go in, a range comes out. */

/** What beginning a new run costs, in the same coin: a process start takes as long as decoding some frames. */
const START_COST = 20;

/**
 * The range for a frame that nothing was prepared for: a few before it, and on to the end as far as it is wanted. None
 * from before `entry`, the key frame that decoding enters at: those would cost the decode of the whole stretch before it.
 */
export function jumpRange(frameIndex: number, entry: number, count: number, reach: WindowReach): FrameSpan {
  return { from: Math.max(entry, frameIndex - reach.behind), to: count - 1 };
}

/**
 * Whether a run that will next deliver `next` and go on to `to` gets to a frame sooner than a new run, which would have
 * to decode from `entry` (the key frame before that frame; 0 when there is none).
 */
export function reachesSoon(
  run: { readonly next: number; readonly to: number },
  frameIndex: number,
  entry: number,
  reach: WindowReach,
): boolean {
  if (frameIndex < run.next || frameIndex > run.to) return false;
  return (frameIndex - run.next) * reach.handOnCost <= frameIndex - entry + START_COST;
}

/**
 * What to prepare when a frame that is there was asked for: the stretch behind it when steps go back, else the frames
 * ahead. Null when nothing near is missing.
 */
export function prepareRange(
  frameIndex: number,
  previous: number | null,
  count: number,
  reach: WindowReach,
  has: (frameIndex: number) => boolean,
): FrameSpan | null {
  const back = previous !== null && frameIndex < previous;
  for (let step = 1; step <= reach.near; step += 1) {
    const missing = back ? frameIndex - step : frameIndex + step;
    if (missing < 0 || missing >= count) return null;
    if (has(missing)) continue;
    return back
      ? { from: Math.max(0, missing - reach.backStretch + 1), to: missing }
      : { from: missing, to: count - 1 };
  }
  return null;
}
