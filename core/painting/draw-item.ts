import type { PicturePoint, ShapeColour, ShapeThickness } from '../model/mark.ts';
import type { Style } from './styles.ts';

/**
 * How strong a line is drawn: `line` for what the coach drew, `stick` for the thinner lines that join body points, `guide`
 * for what nobody drew and a reading measures along: thin, and always dashed. `goal`: where a part should be, dotted.
 */
export type LineWeight = 'line' | 'stick' | 'guide' | 'goal';

/** Of whom it is, and in which colour and thickness where the coach chose one. */
export interface Inked {
  readonly look: Style;
  readonly colour?: ShapeColour;
  readonly thickness?: ShapeThickness;
}

interface Styled extends Inked {
  readonly weight: LineWeight;
}

export interface SegmentItem extends Styled {
  readonly kind: 'segment';
  readonly a: PicturePoint;
  readonly b: PicturePoint;
  /** `ticks`: a short bar across each end, as on a known length. `points`: it stops short of the points it joins. `arrow`: a head at b. */
  readonly ends: 'plain' | 'ticks' | 'points' | 'arrow';
}

export interface PolylineItem extends Styled {
  readonly kind: 'polyline';
  /** Two or more. */
  readonly points: readonly PicturePoint[];
}

export interface BoxItem extends Styled {
  readonly kind: 'box';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface CircleItem extends Styled {
  readonly kind: 'circle';
  readonly centre: PicturePoint;
  readonly radius: number;
}

/** All that is on target of an angle: a soft part of a disc, under all lines. Angles as of an arc. */
export interface WedgeItem {
  readonly kind: 'wedge';
  readonly centre: PicturePoint;
  readonly radius: number;
  readonly start: number;
  readonly end: number;
}

/** Part of a circle, from `start` clockwise on screen to `end`; radians from +x, `end` >= `start`. */
export interface ArcItem extends Styled {
  readonly kind: 'arc';
  readonly centre: PicturePoint;
  readonly radius: number;
  readonly start: number;
  readonly end: number;
}

export interface PointItem {
  readonly kind: 'point';
  readonly at: PicturePoint;
  readonly look: Style;
  readonly hidden: boolean;
}

/** A small dot on one place of a path. */
export interface PlaceItem extends Inked {
  readonly kind: 'place';
  readonly at: PicturePoint;
}

/** Words with their middle on a place; pushed inwards where the picture that shows ends. */
export interface WordsItem extends Inked {
  readonly kind: 'words';
  readonly at: PicturePoint;
  readonly text: string;
}

export interface LabelItem extends Inked {
  readonly kind: 'label';
  /** The place that is labelled; the painter finds a free place for the text near it. */
  readonly at: PicturePoint;
  /** What it names: of that, something must show, and beside that it stands. */
  readonly of: readonly PlacedItem[];
  readonly text: string;
  /** How a reading stands to its goal, where that is said by colour too. */
  readonly tone?: 'good' | 'missed';
}

/** What has its place by itself: all but labels, whose place is only found when they are painted. */
export type PlacedItem =
  | SegmentItem
  | PolylineItem
  | BoxItem
  | CircleItem
  | ArcItem
  | WedgeItem
  | PointItem
  | PlaceItem
  | WordsItem;

/** One thing to draw, in picture coordinates. */
export type DrawItem = PlacedItem | LabelItem;
