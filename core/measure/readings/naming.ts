import type { CheckpointFrame } from '../../model/frame.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { TimedCheckpoint } from '../../model/words.ts';
import { clockOf } from '../../time/swing-clock.ts';

/** How far the instant that a coach means may lie from the frame that was named for it, beyond that frame's own half. */
export interface NamingErrors {
  /** Standard uncertainty of the instant, seconds of the swing, >= 0, from the coach's own repeat check. */
  readonly known: Readonly<Partial<Record<TimedCheckpoint, number>>>;
  /** Degrees of freedom of each known one, > 0; not named = Infinity. */
  readonly freedom?: Readonly<Partial<Record<TimedCheckpoint, number>>>;
}

interface AssumedNaming {
  /** Part that has to do with the swing, seconds of it. */
  readonly seconds: number;
  /** Part that has to do with choosing among frames, frames. */
  readonly frames: number;
}

/**
 * Before a repeat check of checkpoints exists: standard uncertainties, independent parts. Assumed, ours, and readings carry
 * the note `naming-assumed`.
 * - Half a frame everywhere: with two frames as good as each other, either may be named (95 %: one frame either side).
 * - The top, 10 ms: the club stands still there. At some 10,000 degrees/s² (from the 2,413 degrees/s at which the shaft comes
 *   through in published swings, N. Zheng et al. 2008, after a quarter of a second) it is within half a degree of its turning
 *   place for 10 ms either side. That is a frame or two at 60 to 120 frames a second, which is what coaches differ by.
 * - The takeaway, 15 ms: the club passes its mark at a tenth of that speed, and is told level to two or three degrees.
 * - Impact is sharp: the frame before the strike or the one after it.
 */
export const ASSUMED_NAMING: Readonly<Record<TimedCheckpoint, AssumedNaming>> = {
  takeaway: { seconds: 0.015, frames: 0.5 },
  top: { seconds: 0.01, frames: 0.5 },
  impact: { seconds: 0, frames: 0.5 },
};

/**
 * What a downswing and a backswing take, seconds: only to turn seconds of the swing into parts of a clip whose capture rate
 * nobody knows. From memory, rough, never shown.
 */
const USUAL_DOWNSWING = 0.25;
const USUAL_BACKSWING = 0.75;

export interface NamingError {
  /** Standard uncertainty in ticks of the clip, >= 0. */
  readonly ticks: number;
  readonly assumed: boolean;
  /** Degrees of freedom; Infinity where it is assumed. */
  readonly freedom: number;
}

/** How unsure the instant of a named frame is for its naming alone. */
export function namingError(
  clip: MarkedClip,
  checkpoint: TimedCheckpoint,
  frame: CheckpointFrame,
  errors: NamingErrors | undefined,
): NamingError {
  const known = errors?.known[checkpoint];
  if (known !== undefined)
    return {
      ticks: known / swingSecondsATick(clip),
      assumed: false,
      freedom: errors?.freedom?.[checkpoint] ?? Infinity,
    };
  const { seconds, frames } = ASSUMED_NAMING[checkpoint];
  const ticks = Math.hypot(seconds / swingSecondsATick(clip), frames * frame.ticks);
  return { ticks, assumed: true, freedom: Infinity };
}

/**
 * Seconds of the swing in a tick. Where the capture rate is not known it is judged from how long the swing takes in the clip:
 * the ± of a tempo is no smaller for it. A clip is not taken to play faster than it was filmed.
 */
export function swingSecondsATick(clip: MarkedClip): number {
  const { secondsATick, runs } = clockOf(clip);
  if (runs === 'real') return secondsATick;
  const { takeaway, top, impact } = clip.checkpoints;
  const between = (from: CheckpointFrame | undefined, to: CheckpointFrame | undefined): number =>
    from === undefined || to === undefined ? 0 : to.pts - from.pts;
  const [back, down] = [between(takeaway, top), between(top, impact)];
  if (down > 0) return Math.min(secondsATick, USUAL_DOWNSWING / down);
  return back > 0 ? Math.min(secondsATick, USUAL_BACKSWING / back) : secondsATick;
}
