import { say } from '../model/say.ts';
import { findStruckBall, type StruckBall } from './find-ball.ts';
import type { NoProposal, ProposedSwing } from '../model/proposal.ts';
import { findStart } from './find-start.ts';
import type { LumaClip } from './luma.ts';
import { turnRounds, type TurnRound } from './turn-rounds.ts';

/** The ball is gone for certain this much of the time from top to peak after the peak, and not before this part of it. */
const GONE_AFTER = 1.6;
const SOONEST = 0.4;

/** The player is looked at from this part of the way back before its motion shows, and is still for this part of it. */
const BEFORE = 0.5;
const STILL = 0.15;

/** Two ways of finding the start agree within this part of the way back. */
const AGREE = 0.06;

/** Of its frames at most this part may move by more than this part of the swing, else the camera moves. */
const STEADY = { part: 0.5, motion: 0.3 } as const;

/**
 * Which pictures of a clip are looked at for a ball: from before each possible top until the club is through. Frames, both
 * included; null where nothing can be proposed, with the reason.
 */
export function searchSpans(motion: readonly number[]): readonly TurnRound[] | NoProposal {
  const most = Math.max(0, ...motion);
  const busy = motion.filter((value) => value > STEADY.motion * most).length;
  if (most > 0 && busy > STEADY.part * motion.length) return 'all moves';
  const rounds = turnRounds(motion);
  return rounds.length === 0 ? 'nothing swings' : rounds;
}

/** The frame by which a ball that is struck on the way down from a top is gone, for certain. */
export function goneBy({ top, peak }: TurnRound, frames: number): number {
  return Math.min(frames - 1, peak + Math.max(6, Math.round(GONE_AFTER * (peak - top))));
}

/**
 * Address, top and impact of the one swing of a clip. The turn-round at which a ball is struck wins; without any, the most
 * marked one, and then impact is the frame of most motion and unsure.
 * @param clipOf the pictures of a span of frames, both included, each no larger than it takes to see a ball
 */
export async function proposeSwing(
  motion: readonly number[],
  clipOf: (from: number, to: number) => Promise<LumaClip>,
): Promise<ProposedSwing | NoProposal> {
  const rounds = searchSpans(motion);
  if (typeof rounds === 'string') return rounds;
  let best: { readonly round: TurnRound; readonly ball: StruckBall } | null = null;
  for (const round of rounds) {
    const end = goneBy(round, motion.length);
    const clip = await clipOf(Math.max(0, round.top - 4), end);
    const ball = findStruckBall(clip, round.top, end);
    if (ball === null || ball.frame - round.top < SOONEST * (round.peak - round.top)) continue;
    if (best === null || ball.likeness > best.ball.likeness) best = { round, ball };
  }
  const [first] = rounds;
  const round = best?.round ?? first;
  if (round === undefined) return 'nothing swings';
  const still = Math.max(5, Math.round(STILL * (round.top - round.start)));
  const from = Math.max(0, round.start - Math.round(BEFORE * (round.top - round.start)));
  const start = findStart(await clipOf(from, round.top), still, round.top);
  // From frame to frame a slow start is not seen, against a picture at rest a sway is: where both say the same it is sure.
  const agree = Math.abs(start - round.start) <= Math.max(2, AGREE * (round.top - start));
  return {
    address: { frame: start, sure: best !== null && agree, by: say`the last frame before lasting motion` },
    top: { frame: round.top, sure: best !== null, by: say`the end of the lull between the way back and the way down` },
    impact:
      best === null
        ? { frame: round.peak, sure: false, by: say`most motion; no ball was seen to go` }
        : { frame: best.ball.frame, sure: true, by: say`the ball is gone from where it lay` },
  };
}
