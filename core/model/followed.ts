import type { PathSubject, PicturePoint } from './mark.ts';

/** Why a thing is not followed on. */
export type LostWhy =
  | 'out of the picture'
  | 'nothing to hold on to'
  | 'looks like nothing there'
  | 'not the same way back';

/** Where a thing was followed to on one frame. */
export interface FollowedPlace extends PicturePoint {
  readonly frame: number;
}

/** A thing that was followed from a frame on. Nothing of it counts until a coach has said so. */
export interface FollowedThing {
  /** On the frames after the one it began on, each frame once, in order. */
  readonly places: readonly FollowedPlace[];
  /** Why it is lost on the frame after the last place, or after the beginning; null: it was followed to the end. */
  readonly lost: LostWhy | null;
}

/** Pixels of a picture 1080 lines high. Assumed, ours, by the invented player. */
const CLOSE: Readonly<Record<PathSubject, number>> = { clubhead: 5, hands: 8, head: 8, ball: 1.5 };
/**
 * What is seen of hands and head turns as they move, so the place wanders off their middle: so much of the way from where a hand
 * put it. On the invented player, whose middle the scene tells, 866 places of hands and 2,460 of the head had at most 0.96 times
 * the error that this says.
 */
const WANDERS: Readonly<Record<PathSubject, number>> = { clubhead: 0, hands: 0.1, head: 0.1, ball: 0 };

/**
 * How far a place that was followed to is from where a coach would put it: standard deviation in each of x and y, pixels.
 * @param moved how far it is from where a hand put it, pixels
 * @param scale pixels of this picture to one of 1080 lines, > 0
 */
export function followedGuess(subject: PathSubject, moved: number, scale: number): number {
  return Math.hypot(CLOSE[subject] * scale, WANDERS[subject] * moved);
}
