import type { FrameSpan } from '../../../../core/model/frame.ts';
import type { ShownFrame } from '../../../../core/time/clip-index.ts';

/** The ends of a span as the coach set them, as time stamps, which stay right when frames are numbered anew. */
export interface LoopEnds {
  /** null: the clip's own first or last frame. */
  readonly start: number | null;
  readonly end: number | null;
}

export const NO_ENDS: LoopEnds = { start: null, end: null };

/** The ends with one of them set; an other end that would lie on its wrong side, or on the same frame, is let go. */
export function withStart(ends: LoopEnds, start: number): LoopEnds {
  return { start, end: ends.end !== null && ends.end > start ? ends.end : null };
}

export function withEnd(ends: LoopEnds, end: number): LoopEnds {
  return { end, start: ends.start !== null && ends.start < end ? ends.start : null };
}

/** The frames of the span; of a clip without ends all of them. An end that is no time stamp of the clip counts as not set. */
export function spanFrames(frames: readonly Pick<ShownFrame, 'pts'>[], ends: LoopEnds): FrameSpan {
  const last = Math.max(0, frames.length - 1);
  const place = (pts: number | null, without: number): number => {
    const found = pts === null ? -1 : frames.findIndex((frame) => frame.pts === pts);
    return found < 0 ? without : found;
  };
  const [from, to] = [place(ends.start, 0), place(ends.end, last)];
  return from <= to ? { from, to } : { from: 0, to: last };
}
