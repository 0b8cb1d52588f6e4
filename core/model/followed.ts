import type { PathSubject, PicturePoint } from './mark.ts';

/** Why a thing is not followed on. */
export type LostWhy =
  'out of the picture' | 'nothing to hold on to' | 'looks like nothing there' | 'not the same way back';

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

/**
 * How far such a place is from where a coach would put it: standard deviation in each of x and y, pixels of a picture 1080
 * lines high. What is seen of a thing turns with it, so the place wanders off its middle; assumed, ours, by the invented player.
 */
export const FOLLOWED_GUESS: Readonly<Record<PathSubject, number>> = { clubhead: 5, hands: 8, head: 8, ball: 1.5 };
