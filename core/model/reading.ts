import type { BodyPointId } from './body-points.ts';
import type { Checkpoint, View } from './words.ts';

/** Every reading that can be made. The formulas are in core/measure, one entry each in its catalogue. */
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
  'head-shift',
  'head-rise',
  'head-box',
  'upper-centre-shift',
  'lower-centre-shift',
  'side-tilt',
  'elbow-gap',
  'stance-width',
  'club-radius',
  'backswing',
  'downswing',
  'tempo',
] as const;
export type ReadingId = (typeof READING_IDS)[number];

/**
 * deg: degrees. px: pixels of the displayed frame (uncalibrated). cm: centimetres, only with a yardstick.
 * % head box / % shoulder width / % leg length: per cent of that length in the same picture at address.
 * ratio: a pure number. s: seconds of real time. s on screen: seconds of the clip, capture rate unknown.
 */
export const UNITS = [
  'deg',
  'px',
  'cm',
  '% head box',
  '% shoulder width',
  '% leg length',
  'ratio',
  's',
  's on screen',
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

/** Remarks that travel with a value, in the order they matter. The words for people are in core/measure/format.ts. */
export const READING_NOTES = [
  'placing-assumed', // a placing error is assumed: no repeat check has measured it
  'hidden-point', // a point it uses was marked hidden
  'no-plumb', // vertical is the picture's own
  'uncalibrated', // lengths are pixels of the picture
  'yardstick-plane', // holds only in the yardstick's plane
  'capture-rate-unknown', // times are those of the screen
  'capture-rate-unconfirmed', // from the file, not confirmed by the coach
  'short-line', // points so close together that the angle is nearly free
] as const;
export type ReadingNote = (typeof READING_NOTES)[number];

export interface MeasuredReading extends ReadingKey {
  readonly state: 'measured';
  /** In `unit`; finite. Signs as in the catalogue entry. */
  readonly value: number;
  readonly unit: Unit;
  /** Standard uncertainty in `unit`, >= 0, finite. */
  readonly u: number;
  /** 95 % interval [low, high] in `unit`; symmetrical for first order, from the sample for Monte Carlo. */
  readonly interval: readonly [number, number];
  readonly method: 'first-order' | 'monte-carlo';
  /** The body points it was computed from, with the checkpoint whose frame they lie on. */
  readonly from: readonly { readonly point: BodyPointId; readonly checkpoint: Checkpoint }[];
  /** Ids of the shapes it was computed from (head box, plumb, yardstick). */
  readonly shapes: readonly string[];
  readonly notes: readonly ReadingNote[];
}

/** Why there is no number. */
export const MISSING_REASONS = [
  'checkpoint-not-named',
  'points-missing',
  'shape-missing',
  'same-place', // two points that must differ lie on one another
  'wrong-order', // checkpoints are not in the order of a swing
  'capture-rate-unknown',
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
  };
}

/** A number with its uncertainty, or the reason why there is none. Never NaN, never text. */
export type Reading = MeasuredReading | MissingReading;

export const VERDICTS = ['moved', 'held', "can't tell"] as const;
export type Verdict = (typeof VERDICTS)[number];

/** then -> now of one reading. `difference` = now - then. */
export interface Comparison extends ReadingKey {
  readonly then: MeasuredReading;
  readonly now: MeasuredReading;
  readonly difference: number;
  readonly unit: Unit;
  /** Standard uncertainty of the difference, with the part of two camera set-ups. */
  readonly u: number;
  readonly verdict: Verdict;
  /** The tolerance used for `held`, in `unit`, or null when the pattern has none. */
  readonly tolerance: number | null;
}
