import { say } from '../model/say.ts';
import { findStruckBall, type StruckBall } from './find-ball.ts';
import type { NoProposal, ProposedFrame, ProposedSwing } from '../model/proposal.ts';
import { findClubStart } from './club-start.ts';
import { findStart } from './find-start.ts';
import { findTakeaway } from './find-takeaway.ts';
import type { Heard } from './heard-with.ts';
import type { LumaClip } from './luma.ts';
import { turnRounds, type TurnRound } from './turn-rounds.ts';

/** The ball is gone for certain this much of the time from top to peak after the peak, and not before this part of it. */
const GONE_AFTER = 1.6;
const SOONEST = 0.4;

/** The player is looked at from this part of the way back before it, as it takes so many times the way down at least. */
const BEFORE = 0.9;
const BACK_OF_DOWN = 2.5;
/** The player is still for this part of the way back before its motion shows; looked at from so long before it. */
const STILL = { part: 0.15, from: 0.5 } as const;
/** Pictures after top that tell what moves, part of the way back. */
const AFTER = 0.12;

/** A ball that looks less like one needs to be heard too. */
const FAINT = 0.4;

/** Two ways of finding the start agree within this part of the way back. */
const AGREE = 0.06;

/** Of its frames at most this part may move by more than this part of the swing, else the camera moves. */
const STEADY = { part: 0.65, motion: 0.3 } as const;

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
 * Address, takeaway, top and impact of the one swing of a clip. The turn-round at which a ball is struck wins; without any, the most
 * marked one, and then impact is the frame of most motion and unsure.
 * @param heard what the sound says of an impact: it moves nothing, and makes what the picture shows more or less sure
 * @param clipOf the pictures of a span of frames, both included, each no larger than it takes to see a ball
 */
export async function proposeSwing(
  motion: readonly number[],
  clipOf: (from: number, to: number) => Promise<LumaClip>,
  heard: (impact: number) => Heard = () => 'nothing',
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
  const back = Math.round(Math.max(round.top - round.start, BACK_OF_DOWN * (round.peak - round.top)));
  const from = Math.max(0, round.top - Math.round((1 + BEFORE) * back));
  const clip = await clipOf(from, Math.min(motion.length - 1, round.top + Math.round(AFTER * back)));
  const club = best === null ? null : findClubStart(clip, best.ball, { back, top: round.top });
  const takeaway =
    best === null || club === null ? null : findTakeaway(clip, best.ball, { start: club, top: round.top });
  return {
    address:
      club === null
        ? addressByPlayer(clip, round, best !== null)
        : { frame: club.frame, sure: club.clear, by: say`the last frame before the club moves for good` },
    takeaway:
      takeaway === null ? null : { ...takeaway, by: say`the clubhead has come up to the hands, so the shaft is level` },
    top: { frame: round.top, sure: best !== null, by: say`the end of the lull between the way back and the way down` },
    impact: impactBy(round, best?.ball ?? null, heard),
  };
}

/** By all that moves, where the club at the ball does not tell. */
function addressByPlayer(clip: LumaClip, { start, top }: TurnRound, isStruck: boolean): ProposedFrame {
  const back = top - start;
  const from = Math.max(clip.from, start - Math.round(STILL.from * back));
  const found = findStart({ ...clip, from }, Math.max(5, Math.round(STILL.part * back)), top);
  // From frame to frame a slow start is not seen, against a picture at rest a sway is: where both say the same it is sure.
  const agree = Math.abs(found - start) <= Math.max(2, AGREE * (top - found));
  return { frame: found, sure: isStruck && agree, by: say`the last frame before lasting motion` };
}

/** The picture says which frame; the sound only how sure that is. */
function impactBy({ peak }: TurnRound, ball: StruckBall | null, heard: (impact: number) => Heard): ProposedFrame {
  if (ball === null) {
    const isHeard = heard(peak) === 'with it';
    const by = isHeard
      ? say`most motion, and a strike is heard with it; no ball was seen to go`
      : say`most motion; no ball was seen to go`;
    return { frame: peak, sure: false, by };
  }
  const { frame, likeness } = ball;
  const sound = heard(frame);
  if (sound === 'with it')
    return { frame, sure: true, by: say`the ball is gone from where it lay, and a strike is heard with it` };
  if (sound === 'before it')
    return { frame, sure: false, by: say`the ball is gone from where it lay, but a strike is heard before it` };
  return { frame, sure: likeness >= FAINT, by: say`the ball is gone from where it lay` };
}
