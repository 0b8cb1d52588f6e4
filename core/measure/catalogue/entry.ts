import { say } from '../../model/say.ts';
import type { UprightBox } from '../../geometry/box.ts';
import type { GroundPoint } from '../../geometry/ground-marks.ts';
import type { SwingPoint } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { PicturePoint, Plane } from '../../model/mark.ts';
import type { MeasuredReading, ReadingAspect, Unit } from '../../model/reading.ts';
import { CHECKPOINTS } from '../../model/words.ts';
import type { Checkpoint, TimedCheckpoint, View } from '../../model/words.ts';
import type { PathPart } from '../arc/clubhead-path.ts';
import type { Sketch } from './sketch.ts';

/** Where the formula finds its points. Asking for a point that the entry does not list is a mistake of ours: it throws. */
export interface Places {
  /** On the frame of the checkpoint that is read. */
  readonly here: (point: BodyPointId) => SwingPoint;
  /** On the frame of address. */
  readonly address: (point: BodyPointId) => SwingPoint;
  /** A point of any checkpoint as it is seen, in picture pixels. */
  readonly pictureOf: (point: BodyPointId, checkpoint: Checkpoint) => PicturePoint;
  /** As `here` and `address`, on the ground; null for a point at or over the horizon. Only for entries of the ground. */
  readonly groundHere: (point: BodyPointId) => GroundPoint | null;
  readonly groundAddress: (point: BodyPointId) => GroundPoint | null;
  /** The head box drawn on the frame of address. */
  readonly headBox: () => UprightBox;
  /** The outline of head and cap on the frame that is read. Only for entries that read it. */
  readonly head: () => UprightBox;
}

/**
 * What a reading can be in a real swing of anybody, put wide on purpose, in its own unit and sign; both limits belong to it.
 * It is no norm and no aim: a number far outside mostly means that two points were swapped or a frame was misnamed. All limits
 * are ours; tests hold them against a published table of joint angles of real swings. A unit, view or checkpoint that is not
 * named can be anything: shoulders seen along their own line tilt by any angle, pixels depend on the clip.
 */
export interface PlausibleRange {
  readonly unit: Unit;
  readonly aspect: ReadingAspect;
  /** null = every view that the reading is made in. */
  readonly view: View | null;
  /** null = every checkpoint that the reading is made at. */
  readonly at: readonly Checkpoint[] | null;
  readonly from: number;
  readonly to: number;
}

/**
 * Where a reading was once made and no longer is, because what it said of the picture was not true of the body. Marks, books,
 * goals and swing files that name it there stay as they are; whoever asks is told why.
 */
export interface Withdrawal {
  readonly views: readonly View[];
  readonly checkpoints: readonly Checkpoint[];
  /** By how much it was off, and what to read instead, as one sentence or two. */
  readonly why: string;
}

/** How the numbers within a reading's meaning are written: rounded as the reading is. */
export interface MeaningFigures {
  readonly rounded: (value: number) => number;
  /** With its unit, without ±: "4°", "2.1 cm". */
  readonly amount: (value: number) => string;
}

/** One reading. All that is particular to it stands in its entry. */
interface EntryBase {
  /** Name for people, as a heading. */
  readonly label: string;
  /** What is computed, with sign and edges, for people. */
  readonly formula: string;
  /** What + and - mean, or null where the value cannot be negative. */
  readonly sign: { readonly plus: string; readonly minus: string } | null;
  /** What a value means in words, where its sign does not say it; null where a plain number says it all. */
  readonly meaning?: (reading: MeasuredReading, figures: MeaningFigures) => string | null;
  /** 0 is no natural value of it: a size, a time, a speed, or a ratio of them. */
  readonly isSize: boolean;
  readonly plausible: readonly PlausibleRange[];
  /** What is drawn for it on the frame that it is read at. */
  readonly sketch: Sketch;
  readonly views: readonly View[];
  readonly checkpoints: readonly Checkpoint[];
  readonly aspects: readonly ReadingAspect[];
  /** Of those views and checkpoints the ones where it is no longer made. */
  readonly withdrawn?: readonly Withdrawal[];
}

/** A length by which others are stated where there is no known length; always the one at address. */
export type BodyLength = 'head-box' | 'shoulder-width' | 'leg-length' | 'club';

/** A reading from body points. */
export interface PlacedEntry extends EntryBase {
  /** angle: radians. length: pixels, turned into cm or a part of `reference`. ratio: a pure number. */
  readonly quantity: 'angle' | 'length' | 'ratio';
  readonly points: { readonly here: readonly BodyPointId[]; readonly address: readonly BodyPointId[] };
  /** Needs the head box drawn at address. */
  readonly headBox: boolean;
  /** Reads the outline of head and cap against it. */
  readonly head?: true;
  /** Reads places on the ground: needs ground marks; lengths are then millimetres, stated in cm. */
  readonly ground: boolean;
  /** Where in depth the points lie, for lengths in the picture. */
  readonly plane: Plane;
  /** Depends on the vertical. */
  readonly upright: boolean;
  /** Always by Monte Carlo, because the formula has edges. */
  readonly edges: boolean;
  readonly reference: BodyLength | null;
  /** What the value (not its change) can be at all, in radians, pixels or as a ratio. */
  readonly range: readonly [number, number] | null;
  /** null when points that must differ lie on one another. */
  readonly compute: (places: Places) => number | null;
  /** For entries of the ground: the way, mm, whose length, or whose direction from +y toward +x, is what `compute` gives. */
  readonly way?: (places: Places) => GroundPoint | null;
}

/** A reading from the times of named frames. */
export interface TimedEntry extends EntryBase {
  readonly quantity: 'time' | 'time-ratio';
  /** Checkpoints it needs, in the order of a swing; the last is the one it is filed under. */
  readonly spans: readonly TimedCheckpoint[];
  /** From event times in seconds, in the order of `spans`. */
  readonly compute: (times: readonly number[]) => number | null;
}

/** A fitted arc in its plane, pixels of the picture. */
interface FittedArc {
  readonly radius: number;
  readonly centre: SwingPoint;
}

/** Where the formula of an arc finds what it needs. Asking for what the entry does not list is a mistake of ours: it throws. */
export interface ArcPlaces {
  readonly arc: (part: PathPart) => FittedArc;
  /** The ball at rest. */
  readonly ball: () => SwingPoint;
}

/** A length of the clubhead's path. */
export interface ArcEntry extends EntryBase {
  readonly quantity: 'arc';
  readonly parts: readonly PathPart[];
  /** Needs the ball. */
  readonly ball: boolean;
  /** What the value can be at all, in pixels. */
  readonly range: readonly [number, number] | null;
  /** Pixels, turned into cm or a part of the shoulder width. */
  readonly compute: (places: ArcPlaces) => number | null;
}

/** The speed along the clubhead's path at impact; its formula is core/measure/arc/read-speed.ts. */
export interface SpeedEntry extends EntryBase {
  readonly quantity: 'speed';
}

export type CatalogueEntry = PlacedEntry | TimedEntry | ArcEntry | SpeedEntry;

/** A range for the value at every view and checkpoint, where not said otherwise. */
export function plausibly(
  unit: Unit,
  from: number,
  to: number,
  more: Partial<Pick<PlausibleRange, 'aspect' | 'view' | 'at'>> = {},
): PlausibleRange {
  return { unit, aspect: 'value', view: null, at: null, from, to, ...more };
}
/** Nothing is known of what it can be. */
export const ANYTHING: readonly PlausibleRange[] = [];

export const DOWN_THE_LINE: readonly View[] = ['down-the-line'];
export const FACE_ON: readonly View[] = ['face-on'];
export const BOTH_VIEWS: readonly View[] = ['down-the-line', 'face-on'];
export const AFTER_ADDRESS: readonly Checkpoint[] = CHECKPOINTS.filter((checkpoint) => checkpoint !== 'address');
export const VALUE: readonly ReadingAspect[] = ['value'];
export const VALUE_AND_CHANGE: readonly ReadingAspect[] = ['value', 'change'];
export const TOWARD_BALL = { plus: say`toward the ball`, minus: say`away from the ball` };
export const TOWARD_TARGET = { plus: say`toward the target`, minus: say`away from the target` };
export const UP_DOWN = { plus: say`up`, minus: say`down` };
