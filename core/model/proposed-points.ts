import type { BodyPointId } from './body-points.ts';
import type { PicturePoint } from './mark.ts';

/** Where a body point may be. */
export interface ProposedPoint extends PicturePoint {
  /** How far such a place lies from the coach's, standard deviation in each of x and y, pixels; > 0. */
  readonly guess: number;
}

/** Body points that are proposed on a frame. Nothing of it counts until a coach has said so. */
export type ProposedPoints = Readonly<Partial<Record<BodyPointId, ProposedPoint>>>;
