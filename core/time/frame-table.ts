import type { CheckpointFrame } from '../model/frame.ts';
import type { ClipIndex, ShownFrame } from './clip-index.ts';
import { ticksToSeconds } from './rational.ts';

/**
 * Times are shown to people with six decimals; whoever types one back means the frame that was shown beside it. Half of
 * the last decimal, but never as much as half a tick.
 */
const TYPED_SECONDS_TOLERANCE = 0.5e-6;

/**
 * Index of the frame on screen at `seconds` (of the clip's own clock, pts x time base): the last frame that is not
 * later. Null before the first frame and from the end of the last one on, and for anything that is no finite number.
 */
export function frameAtSeconds(index: ClipIndex, seconds: number): number | null {
  if (!Number.isFinite(seconds)) return null;
  const tolerance = Math.min(TYPED_SECONDS_TOLERANCE, ticksToSeconds(1, index.timebase) / 2);
  const found = lastWhere(index.frames, ({ pts }) => ticksToSeconds(pts, index.timebase) - tolerance <= seconds);
  const frame = found === null ? undefined : index.frames[found];
  if (found === null || frame === undefined) return null;
  const end = ticksToSeconds(frame.pts + frame.ticks, index.timebase);
  return seconds < end - tolerance ? found : null;
}

/** Index of the frame with exactly this time stamp, or null. */
export function frameWithPts(index: Pick<ClipIndex, 'frames'>, pts: number): number | null {
  const found = lastWhere(index.frames, (frame) => frame.pts <= pts);
  return found !== null && index.frames[found]?.pts === pts ? found : null;
}

/** That frame with its time; null where no frame has this time stamp. */
export function frameAtPts(index: Pick<ClipIndex, 'frames'>, pts: number): CheckpointFrame | null {
  const place = frameWithPts(index, pts);
  const frame = place === null ? undefined : index.frames[place];
  return place === null || frame === undefined ? null : { index: place, pts, ticks: frame.ticks };
}

/**
 * The frame at which decoding starts to reach `frameIndex`: the last key frame that is not later in time. Never a later
 * key that precedes it in the file: what an open group shows before its key needs the group before. Null when no key
 * frame comes before it.
 */
export function entryFrame(index: ClipIndex, frameIndex: number): number | null {
  for (let i = Math.min(frameIndex, index.frames.length - 1); i >= 0; i -= 1)
    if (index.frames[i]?.key === true) return i;
  return null;
}

/** Place of the last frame that `holds`, where all frames that hold come before all that do not; null when none does. */
function lastWhere(frames: readonly ShownFrame[], holds: (frame: ShownFrame) => boolean): number | null {
  let [low, high] = [0, frames.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    const frame = frames[middle];
    if (frame !== undefined && holds(frame)) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? null : low - 1;
}
