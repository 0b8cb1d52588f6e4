import type { FrameSpan } from '../model/frame.ts';
import type { ClipIndex } from './clip-index.ts';
import { ticksToSeconds } from './rational.ts';
import { nearestFrame } from './clip-summary.ts';
import { slownessOf } from './swing-clock.ts';

/**
 * What is kept round a strike, seconds of the swing: from standing over the ball, as a way back takes one second and rarely
 * two, to the held finish (common practice).
 */
export const CUT = { before: 3, after: 2 } as const;

/** The frames to keep of a swing whose ball is struck at `impact`, a frame of the clip; as far as the clip goes. */
export function cutAbout(index: ClipIndex, impact: number): FrameSpan {
  const { frames, timebase } = index;
  const times = frames.map(({ pts }) => ticksToSeconds(pts, timebase));
  const [struck, slowness] = [times[impact] ?? 0, slownessOf(index)];
  return {
    from: nearestFrame(times, struck - CUT.before * slowness),
    to: nearestFrame(times, struck + CUT.after * slowness),
  };
}
