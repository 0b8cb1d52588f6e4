/**
 * What is unlike from one day to the next though the player did nothing else: where cameras stand, and where a coach takes a
 * joint to lie under a shirt. One standard deviation each, >= 0. Stated, all ours; whoever measures hands in his own.
 */
export interface SetUpErrors {
  /** Radians that a camera set up by eye looks beside its line, where no ground marks tell it. */
  readonly yaw: number;
  /** Radians that it is rolled, where no plumb tells it. */
  readonly roll: number;
  /** Metres that the lens is higher or lower than level with what it looks at. */
  readonly height: number;
  /** Metres from the camera to the player: what it is taken to be where no ground marks tell it, and how sure that is. */
  readonly distance: { readonly value: number; readonly u: number };
  /** Part by which an unknown lens moves a place half a diagonal from the middle of the picture. */
  readonly lens: number;
  /** Metres that a known length lies off the plane that it stands for. */
  readonly plane: number;
  /** Times the spread of the depth that a point is taken to have (core/measure/camera/posture.ts, depth-of-point.ts). */
  readonly depth: number;
  /** Metres that a joint is taken to lie off: by this coach on this player always, and on each frame anew. */
  readonly definition: { readonly shared: number; readonly anew: number };
  /** How far a player's own swings of one lesson lie apart: degrees of an angle, metres of a place, seconds of a time. */
  readonly scatter: { readonly degrees: number; readonly metres: number; readonly seconds: number };
}

const RADIANS = Math.PI / 180;

/**
 * A tripod set up by eye: direction to 3 degrees, roll to 1, height to 10 cm, 5 m off by a step. A phone's picture bends by a
 * percent at its rim. A joint under a shirt is put 10 to 25 mm apart from day to day and view to view, half of it always alike.
 * A player's swings lie 2 degrees, a centimetre, a hundredth of a second apart.
 */
export const ASSUMED_SET_UP: SetUpErrors = {
  yaw: 3 * RADIANS,
  roll: 1 * RADIANS,
  height: 0.1,
  distance: { value: 5, u: 0.8 },
  lens: 0.01,
  plane: 0.15,
  depth: 1,
  definition: { shared: 0.01, anew: 0.01 },
  scatter: { degrees: 2, metres: 0.01, seconds: 0.01 },
};
