import type { BodyPointId } from './body-points.ts';
import type { PicturePoint, PlacedPoint, ProposedPlace } from './mark.ts';
import type { Checkpoint, Handedness, View } from './words.ts';

/** Where a pose model sees a body point. */
export interface SeenPoint extends PicturePoint {
  /** How far such a place lies from a careful marking, as assumed: standard deviation in each of x and y, pixels; > 0. */
  readonly guess: number;
}
export type SeenPoints = Readonly<Partial<Record<BodyPointId, SeenPoint>>>;

/** Where a body point may be. */
export interface ProposedPoint extends PicturePoint {
  /** How far such a place lies from the coach's, standard deviation in each of x and y, pixels; > 0. */
  readonly guess: number;
  /** What is kept of it with the point that is placed here or elsewhere. */
  readonly proposed: ProposedPlace;
}

/** Body points that are proposed on a frame. Nothing of it counts until a coach has said so. */
export type ProposedPoints = Readonly<Partial<Record<BodyPointId, ProposedPoint>>>;

/** A frame on which points are looked for, and its name, or the one it is proposed for; null: none. */
export interface AskedFrame {
  readonly frame: number;
  readonly checkpoint: Checkpoint | null;
}

/** A point that was proposed, and that a hand put elsewhere. */
export interface Correction {
  readonly point: BodyPointId;
  readonly view: View;
  readonly handedness: Handedness;
  /** The name of its frame now, the first in the swing's order; null: none. */
  readonly checkpoint: Checkpoint | null;
  /** Corrections of one lesson are much alike: the same player, clothes and camera. */
  readonly lessonId: string;
  readonly placed: PicturePoint;
  readonly proposed: NonNullable<PlacedPoint['proposed']>;
}

/** What the book knows of the coach's corrections. */
export interface KeptCorrections {
  /** Those that count. */
  readonly corrections: readonly Correction[];
  /** Those made before the coach began anew, which do not count. */
  readonly leftOut: number;
  /** Those that came in with swing files, which do not count either: another hand's. */
  readonly brought: number;
}
