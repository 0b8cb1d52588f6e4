import { findStruckBall, type StruckBall } from './find-ball.ts';
import type { Luma, LumaClip } from './luma.ts';
import { motionBetween, smoothed } from './motion.ts';
import type { SoundOnset } from './sound-onsets.ts';
import type { FoundSwing } from '../model/proposal.ts';

/** A picture of a long clip, some of whose frames may be passed over. */
export interface SessionPicture {
  readonly frame: number;
  /** On the clip's own clock. */
  readonly seconds: number;
  readonly samples: Luma;
}

export interface SessionFacts {
  readonly width: number;
  readonly height: number;
  /** Pictures that come in a second of the swing, > 0. */
  readonly rate: number;
  /** Null: the clip has no sound. */
  readonly onsets: readonly SoundOnset[] | null;
  /** Seconds of the clip in one of the swing, >= 1. */
  readonly slowness: number;
}

/** A burst is the most motion for so long on either side; seconds. */
const ALONE = 0.6;
/** It reaches this part of the clip's highest burst: a player in the background does not. */
const LEAST_BURST = 0.3;
/** Before it there is a lull below this part of it, within so many seconds: the top of the swing, or standing still. */
const LULL = 0.6;
const LULL_SECONDS = 0.7;
/** A ball is looked for from so long before the burst, when the club is up, to so long after; seconds. */
const BEFORE = 0.5;
const AFTER = 0.5;
/** A strike is heard from so long before the ball goes, by two pictures' doubt, to so long after (20 m, or a slow recorder). */
const HEARD = { before: 0.07, after: 0.35 } as const;
/** Without a ball a noise that comes with the burst may be a strike; it is so loud, as a part of the loudest that fits a ball. */
const AT_BURST = 0.15;
const LOUD = 0.5;
const LOUDEST = 255;
/** The balls of one session lie within this part of the picture's height of each other. */
const SAME_PLACE = 0.12;

interface Burst {
  readonly place: number;
  readonly motion: number;
  /** Something that lay still and went as a ball does, by number of picture; null: nothing. */
  readonly ball: StruckBall | null;
}

/**
 * The swings of a clip with a camera that was left running, in order: bursts of motion, each with what says that a ball was
 * struck. A ball that goes is one witness, what is heard another; with neither it may be a practice swing, or the club that is
 * lowered, and only what is like a swing for its motion is told.
 *
 * Pictures are looked at as they come, and of them no more are kept than two seconds.
 */
export async function findSwings(
  pictures: AsyncIterable<SessionPicture>,
  facts: SessionFacts,
): Promise<readonly FoundSwing[]> {
  const { rate } = facts;
  const frames: Pick<SessionPicture, 'frame' | 'seconds'>[] = [];
  const motion: number[] = [];
  const bursts: Burst[] = [];
  const kept = new Map<number, Luma>();
  const [alone, before, after] = [ALONE, BEFORE, AFTER].map((seconds) => Math.max(6, Math.round(seconds * rate))) as [
    number,
    number,
    number,
  ];
  const look = (place: number): void => {
    const even = smoothed(motion.slice(Math.max(0, place - alone - 1), place + alone + 2));
    const at = Math.min(place, alone + 1);
    const height = even[at] ?? 0;
    if (height === 0 || even.some((value, other) => value > height || (value === height && other < at))) return;
    const lull = Math.min(...even.slice(Math.max(0, at - Math.round(LULL_SECONDS * rate)), at));
    if (lull > LULL * height) return;
    const clip = lumaClip(facts, kept, Math.max(0, place - before), place + after);
    const ball = findStruckBall(clip, clip.from, clip.to - 1);
    bursts.push({ place, motion: height, ball });
  };
  const wait = Math.max(alone + 1, after);
  for await (const { frame, seconds, samples } of pictures) {
    const place = frames.length;
    const last = kept.get(place - 1);
    frames.push({ frame, seconds });
    motion.push(last === undefined ? 0 : motionBetween(last, samples));
    kept.set(place, samples);
    kept.delete(place - wait - before - 1);
    if (place >= wait) look(place - wait);
  }
  for (let place = Math.max(0, frames.length - wait); place < frames.length - 10; place += 1) look(place);
  return told(bursts, frames, facts);
}

function lumaClip(
  { width, height }: SessionFacts,
  kept: ReadonlyMap<number, Luma>,
  from: number,
  to: number,
): LumaClip {
  const last = kept.has(to) ? to : Math.max(...kept.keys());
  return {
    ...{ width, height, from, to: last + 1 },
    at(place) {
      const picture = kept.get(place);
      if (picture === undefined) throw new Error(`picture ${String(place)} is not kept`);
      return picture;
    },
  };
}

/** What is said of the bursts: which were strikes, and by which witnesses. */
function told(
  bursts: readonly Burst[],
  frames: readonly Pick<SessionPicture, 'frame' | 'seconds'>[],
  { height, onsets, slowness }: SessionFacts,
): readonly FoundSwing[] {
  /** The loudest that is heard with a picture. */
  const heardAt = (place: number, before: number, after: number): number =>
    (onsets ?? []).reduce((loudest, { seconds, loudness }) => {
      const late = (seconds - (frames[place]?.seconds ?? 0)) / slowness;
      return late >= -before && late <= after ? Math.max(loudest, loudness) : loudest;
    }, 0);
  const balls = bursts.flatMap(({ ball }) =>
    ball === null ? [] : { ...ball, loudness: heardAt(ball.frame, HEARD.before, HEARD.after) },
  );
  const tee = teeOf(balls, SAME_PLACE * height);
  const struck = new Map(
    balls.filter((ball) => tee !== null && apart(ball, tee) <= SAME_PLACE * height).map((ball) => [ball.frame, ball]),
  );
  const isStruck = ({ ball }: Burst): boolean => ball !== null && struck.has(ball.frame);
  const usual = median((struck.size > 0 ? bursts.filter(isStruck) : bursts).map(({ motion }) => motion));
  const loud =
    LOUD * (median([...struck.values()].flatMap(({ loudness }) => (loudness > 0 ? loudness : []))) ?? LOUDEST);
  return bursts
    .filter(({ motion }) => motion >= LEAST_BURST * (usual ?? 0))
    .map(({ place, ball }): FoundSwing => {
      const seen = ball === null ? undefined : struck.get(ball.frame);
      const impact = frames[seen?.frame ?? place]?.frame ?? 0;
      if (seen !== undefined) return { impact, seen: true, heard: seen.loudness > 0 };
      return { impact, seen: false, heard: heardAt(place, AT_BURST, AT_BURST) >= loud };
    });
}

/** Where balls are struck from: where most of what may be one lay, what is heard counting twice. */
function teeOf(balls: readonly (StruckBall & { readonly loudness: number })[], near: number): StruckBall | null {
  const weight = (tee: StruckBall): number =>
    balls.reduce(
      (sum, ball) => (apart(ball, tee) <= near ? sum + ball.likeness * (ball.loudness > 0 ? 2 : 1) : sum),
      0,
    );
  return balls.reduce<StruckBall | null>(
    (best, ball) => (best === null || weight(ball) > weight(best) ? ball : best),
    null,
  );
}

const apart = (one: StruckBall, other: StruckBall): number => Math.hypot(one.x - other.x, one.y - other.y);

function median(values: readonly number[]): number | null {
  return values.toSorted((one, other) => one - other)[values.length >> 1] ?? null;
}
