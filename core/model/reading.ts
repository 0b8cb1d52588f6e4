import type { BodyPointId } from './body-points.ts';
import type { Checkpoint, View } from './words.ts';

/**
 * Every reading that can be made. All else of a reading is its one entry in core/measure/catalogue; after a change here
 * `npm run schemas` writes the file formats anew.
 */
export const READING_IDS = [
  'back-incline',
  'neck-over-back',
  'shoulder-to-spine',
  'shoulder-line',
  'hip-line',
  'lead-knee',
  'trail-knee',
  'hip-rise',
  'hip-depth',
  'shaft-incline',
  'hands-off-plane',
  'head-off-plane',
  'head-shift',
  'head-rise',
  'head-box',
  'head-centre-box',
  'upper-centre-shift',
  'lower-centre-shift',
  'side-tilt',
  'elbow-gap',
  'stance-width',
  'club-radius',
  'arc-radius',
  'low-point',
  'arc-centre-shift',
  'clubhead-speed',
  'lead-flare',
  'trail-flare',
  'heel-slip',
  'toe-slip',
  'ground-stance',
  'toe-line',
  'backswing',
  'downswing',
  'tempo',
] as const;
export type ReadingId = (typeof READING_IDS)[number];

/**
 * deg: degrees. px: pixels of the displayed frame (uncalibrated). cm: centimetres, only with a known length.
 * % head box / % shoulder width / % leg length: per cent of that length in the same picture at address. club lengths: of
 * the shaft as it is seen at address. ratio: a pure number. s: seconds of real time. s on screen: seconds of the clip,
 * capture rate unknown. m/s: metres a second of real time.
 */
export const UNITS = [
  'deg',
  'px',
  'cm',
  '% head box',
  '% shoulder width',
  '% leg length',
  'club lengths',
  'ratio',
  's',
  's on screen',
  'm/s',
] as const;
export type Unit = (typeof UNITS)[number];

/** Which value of a reading: how it stands at the checkpoint, or how it changed since address. */
export type ReadingAspect = 'value' | 'change';

/** Identity of a reading within one swing. Two swings are compared key by key. */
export interface ReadingKey {
  readonly id: ReadingId;
  readonly aspect: ReadingAspect;
  /** The view whose points, or whose named frames, it is read from. */
  readonly view: View;
  /** The checkpoint it is read at; for time readings, the last one it spans. */
  readonly checkpoint: Checkpoint;
}

/** Whether two readings, of one swing or of two, are of the same thing. */
export function sameReading(one: ReadingKey, other: ReadingKey): boolean {
  return (
    one.id === other.id && one.aspect === other.aspect && one.view === other.view && one.checkpoint === other.checkpoint
  );
}

/** Remarks that travel with a value, in the order they matter. The words for people are in core/measure/words/format.ts. */
export const READING_NOTES = [
  'placing-assumed', // a placing error is assumed: no repeat check has measured it
  'naming-assumed', // which frame is named is unsure by an assumed error
  'time-jump', // time stamps jump between the named frames
  'head-size-assumed', // how much of its box the head fills is assumed
  'head-turn-assumed', // the head's outline is that of address
  'hidden-point', // a point it uses was marked hidden
  'proposed-point', // a point it uses was accepted as it was proposed
  'no-plumb', // vertical is the picture's own
  'uncalibrated', // lengths are pixels of the picture
  'known-length-plane', // holds only in the known length's plane
  'off-known-length-plane', // what is read lies in another plane than the known length
  'lens-straightened', // places were straightened by marked edges first
  'plane-from-shaft', // the arc's incline was taken from the shaft at address
  'no-plane', // the arc's incline is not known: fitted as it looks
  'capture-rate-unknown', // times are those of the screen
  'capture-rate-unconfirmed', // from the file, not confirmed by the coach
  'short-line', // points so close together that the angle is nearly free
  'scale-unsure', // the known length is so short in the picture that its centimetres say nothing
] as const;
export type ReadingNote = (typeof READING_NOTES)[number];

/**
 * Where the uncertainty of a reading comes from. placing: of body points and of shapes that are read themselves. scale: of
 * the known length. plumb: of the vertical. ground: of ground marks. depth: of how far from the known length's plane a thing lies.
 * lens: of the lens that edges tell. plane: of the incline of the arc's plane. time: of the instant within a named frame.
 * naming: of which frame is named. head: of how large the head is and how it has turned. camera: of where the camera stands
 * and looks, as far as no marks tell it. definition: of where a joint is taken to lie.
 */
export const UNCERTAINTY_SOURCES = [
  'placing',
  'scale',
  'depth',
  'plumb',
  'ground',
  'lens',
  'plane',
  'time',
  'naming',
  'head',
  'camera',
  'definition',
] as const;
export type UncertaintySource = (typeof UNCERTAINTY_SOURCES)[number];

/** The part of one source: the standard uncertainty that it alone would give, in the reading's unit, >= 0. */
export interface BudgetPart {
  readonly source: UncertaintySource;
  readonly u: number;
}

/** An error that another reading has too: it cancels in a difference as far as both have it alike. */
export interface SharedPart {
  /** The same name in two readings is the same error. */
  readonly name: string;
  /**
   * player: in every reading of this player by this coach. day: as long as the camera stands where it stood. marks: wherever the
   * very same marks tell it, copied and not clicked anew; the name holds what they tell.
   */
  readonly by: 'player' | 'day' | 'marks';
  /** Signed, in the reading's unit: what one standard deviation of the error makes of the value. */
  readonly part: number;
}

/** What several swings of a lesson say of one reading, where a number is their mean. */
export interface SwingsOfReading {
  /** Their numbers, that of the open swing first; two or more. */
  readonly values: readonly number[];
  /** Labels of those that lie far off the others. */
  readonly odd: readonly string[];
}

export interface MeasuredReading extends ReadingKey {
  readonly state: 'measured';
  /** In `unit`; finite. Signs as in the catalogue entry. */
  readonly value: number;
  readonly unit: Unit;
  /** Standard uncertainty in `unit`, >= 0, finite. */
  readonly u: number;
  /** 95 % interval [low, high] in `unit`; symmetrical for first order, from the sample for Monte Carlo. */
  readonly interval: readonly [number, number];
  /** The ± is this many times u: 1.96, or more where errors are known from few repeats only (Student's t). */
  readonly coverage: number;
  /** Sources that the reading has, largest first. For first order their squares add up to u squared. */
  readonly budget: readonly BudgetPart[];
  readonly shared: readonly SharedPart[];
  readonly method: 'first-order' | 'monte-carlo';
  /** The body points it was computed from, with the checkpoint whose frame they lie on. */
  readonly from: readonly { readonly point: BodyPointId; readonly checkpoint: Checkpoint }[];
  /** Ids of the shapes it was computed from (head box, plumb, known length, ground marks, edges, path). */
  readonly shapes: readonly string[];
  readonly notes: readonly ReadingNote[];
  /** Of a mean of several swings; left out of a reading of one. A mean has no parts in `budget` and `shared`. */
  readonly swings?: SwingsOfReading;
}

/** Why there is no number. */
export const MISSING_REASONS = [
  'checkpoint-not-named',
  'points-missing',
  'shape-missing',
  'same-place', // two points that must differ lie on one another
  'wrong-order', // two checkpoints, those that are needed, are not in the order of a swing
  'capture-rate-unknown',
  'ground-missing', // no ground marks, or such as tell nothing
  'ground-mixed-up', // ground marks lie as they would for a player of the other hand
  'known-length-missing', // a speed in pixels would say nothing
  'path-missing', // the clubhead's path is not placed, or on too few frames
  'arc-too-short', // the path covers too little of its arc
  'no-low-point', // the path does not run past its lowest place
  'frames-too-few', // fewer than 120 true frames a second
  'frame-turn', // the club turns too far within a frame, so that its blur hides where it is
  'withdrawn', // it is no longer made there, because it was not true of the body
  'over-horizon', // a point that must lie on the ground is seen at or over the horizon
] as const;
export type MissingReason = (typeof MISSING_REASONS)[number];

export interface MissingReading extends ReadingKey {
  readonly state: 'missing';
  readonly reason: MissingReason;
  /** What to place or name so that it can be read. */
  readonly needs: {
    readonly points: readonly { readonly point: BodyPointId; readonly checkpoint: Checkpoint }[];
    readonly checkpoints: readonly Checkpoint[];
    readonly headBox: boolean;
    /** Ground marks are wanted. */
    readonly ground?: true;
    /** The clubhead's path is wanted, on so many frames at least, round this checkpoint. */
    readonly path?: { readonly frames: number; readonly round: Checkpoint };
  };
}

/** A number with its uncertainty, or the reason why there is none. Never NaN, never text. */
export type Reading = MeasuredReading | MissingReading;

export const VERDICTS = ['changed', 'no change', "can't tell", 'worth a look'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** then -> now of one reading. `difference` = now - then. */
export interface Comparison extends ReadingKey {
  readonly then: MeasuredReading;
  readonly now: MeasuredReading;
  readonly difference: number;
  readonly unit: Unit;
  /** Standard uncertainty of the difference, with the part of two camera set-ups. */
  readonly u: number;
  /** Its ± is this many times u (see `MeasuredReading`). */
  readonly coverage: number;
  /** It was named beforehand, and is judged by itself; all others are screened together. */
  readonly isOnTrial: boolean;
  readonly verdict: Verdict;
  /** The tolerance used for `no change`, in `unit`, or null when the goals have none. */
  readonly tolerance: number | null;
  /** The smallest change that would show (4 times of 5), in `unit`, > 0. */
  readonly shows: number;
  /** What would show with three swings a lesson; null where there are as many, and of one day. */
  readonly showsWithThree: number | null;
}
