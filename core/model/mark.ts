import type { BodyPointId } from './body-points.ts';
import type { FrameRef } from './frame.ts';

/**
 * A place in picture coordinates: continuous pixels of the displayed frame (upright, square pixels), x right, y down;
 * pixel (i, j) covers [i, i+1) x [j, j+1). May lie outside the picture. Always finite.
 */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

/** A body point as the coach placed it. `hidden`: the place was guessed because something covers it. */
export interface PlacedPoint extends PicturePoint {
  readonly hidden: boolean;
  /**
   * The coach accepted the place as it was proposed, and has not moved it: how far such a place lies from the coach's own,
   * standard deviation in each of x and y, pixels, > 0. Left out of a point that a hand placed.
   */
  readonly guess?: number;
  /** Where it had been proposed, whether it stands there still or a hand has put it elsewhere. Left out: nothing was proposed. */
  readonly proposed?: ProposedPlace;
}

/** Where a body point had been proposed: the place that was shown. */
export interface ProposedPlace extends PicturePoint {
  /** Where the pose model saw it, before anything that is known of the coach was taken out. */
  readonly model: PicturePoint;
  /** How far such a place is assumed to lie from the coach's, standard deviation in each of x and y, pixels; > 0. */
  readonly assumed: number;
  /** The side of the square in which the model saw the body, pixels; > 0. */
  readonly size: number;
  /** From so many corrections its error was learnt, >= 1; left out: it was assumed. */
  readonly learnt?: number;
  /** When it was proposed: an instant of UTC, ISO 8601 with milliseconds. */
  readonly at: string;
}

/**
 * How far from the camera a length lies: as far as the middle of the player's body, or as far as the ball. Seen face on the
 * ball is nearer; down the line both are as good as equally far.
 */
export const PLANES = ['player', 'ball'] as const;
export type Plane = (typeof PLANES)[number];

/** Colours that hold on grass, mat, sky and net with their dark edge (tests/outside/contrast.test.ts). */
export const SHAPE_COLOURS = ['white', 'yellow', 'pink', 'lime'] as const;
export type ShapeColour = (typeof SHAPE_COLOURS)[number];

export const SHAPE_THICKNESSES = ['thin', 'thick'] as const;
export type ShapeThickness = (typeof SHAPE_THICKNESSES)[number];

/** How the coach wants a shape to look. What is left out is as usual: the colour of its swing, a line of middle width, with its label. */
export interface ShapeLook {
  readonly colour?: ShapeColour;
  readonly thickness?: ShapeThickness;
  /** Its number does not stand beside it. */
  readonly unlabelled?: true;
}

interface ShapeBase extends ShapeLook {
  /** Unique within the book; a UUID. */
  readonly id: string;
  /** Shown on all frames of its clip. Without it a shape is shown on the frame that it was drawn on, and there only. */
  readonly carried?: true;
}

/** A straight line; as a `plumb` it marks the true vertical, as a `level` the true horizontal, as a `yardstick` (the word of
 * files and books) a known length. */
export interface LineShape extends ShapeBase {
  readonly kind: 'line';
  readonly a: PicturePoint;
  readonly b: PicturePoint;
  readonly role: 'plumb' | 'level' | 'yardstick' | null;
  /** Real length in millimetres, > 0; set when and only when `role` is known length. */
  readonly lengthMm: number | null;
  /** Standard uncertainty of that length in millimetres, > 0; left out where it is known well enough. Known lengths only. */
  readonly lengthUMm?: number;
  /** Where the known length lies; the player's plane where left out. Known lengths only. */
  readonly plane?: Plane;
}

/** The angle at `vertex` between the arms to `a` and `b`. */
export interface AngleShape extends ShapeBase {
  readonly kind: 'angle';
  readonly vertex: PicturePoint;
  readonly a: PicturePoint;
  readonly b: PicturePoint;
}

/** An upright box; `width` and `height` >= 0 in pixels, (x, y) its upper left corner. */
export interface BoxShape extends ShapeBase {
  readonly kind: 'box';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** `head-box`: drawn round the head at address, to see whether it stays there. `head`: close round head and cap, their outline. */
  readonly role: 'head-box' | 'head' | null;
}

/** `radius` >= 0 in pixels. */
export interface CircleShape extends ShapeBase {
  readonly kind: 'circle';
  readonly centre: PicturePoint;
  readonly radius: number;
  /** Three or more places on the edge that the circle was fitted to; without them it was drawn from its middle. */
  readonly rim?: readonly PicturePoint[];
  /** The circle is the edge of the ball at rest, a small known length in the ball's plane. */
  readonly role?: 'ball';
}

/** A line drawn by hand; it shows something and measures nothing. */
export interface FreeShape extends ShapeBase {
  readonly kind: 'free';
  /** Two or more. */
  readonly places: readonly PicturePoint[];
}

/** From `a` to its head at `b`; it shows something and measures nothing. */
export interface ArrowShape extends ShapeBase {
  readonly kind: 'arrow';
  readonly a: PicturePoint;
  readonly b: PicturePoint;
}

/** Characters of a text on the picture. */
export const MOST_TEXT = 40;

/** A few words on the picture, with their middle at `at`. */
export interface TextShape extends ShapeBase {
  readonly kind: 'text';
  readonly at: PicturePoint;
  /** 1 to MOST_TEXT characters, one line. */
  readonly words: string;
}

/** What a path follows. */
export const PATH_SUBJECTS = ['clubhead', 'hands', 'head', 'ball'] as const;
export type PathSubject = (typeof PATH_SUBJECTS)[number];

/** One thing followed over frames, whatever frame the path is kept with. A clip has at most one of each. */
export interface PathShape extends ShapeBase {
  readonly kind: 'path';
  readonly subject: PathSubject;
  /** One or more, in the order of their frames, at most one a frame. */
  readonly places: readonly PathPlace[];
}

/** A place with the frame it was taken on: its time stamp, which stays right when frames are numbered anew. */
export interface PathPlace extends PicturePoint {
  readonly pts: number;
  /** As of a placed point: accepted where it was followed to, pixels, > 0. Left out of a place that a hand put there. */
  readonly guess?: number;
}

/** A place of the picture whose place on the flat ground is known. */
export interface GroundMark extends PicturePoint {
  /** Millimetres toward the target, and from the player toward the ball, from an origin of the coach's choice. */
  readonly target: number;
  readonly ball: number;
}

/** How the ground marks were laid: corners of a mat, ends of two crossed sticks, or as the coach measured them. */
export const GROUND_LAYOUTS = ['mat', 'sticks', 'measured'] as const;
export type GroundLayout = (typeof GROUND_LAYOUTS)[number];

/** Ground marks: what turns places on the ground into true lengths and angles. The camera stands still through a clip. */
export interface GroundShape extends ShapeBase {
  readonly kind: 'ground';
  readonly layout: GroundLayout;
  /** Four or more. */
  readonly places: readonly GroundMark[];
}

/** Places along one edge that is straight in reality; how far they bend in the picture tells of the lens. */
export interface EdgeShape extends ShapeBase {
  readonly kind: 'edge';
  /** Three or more, in order along the edge. */
  readonly places: readonly PicturePoint[];
}

/**
 * A new kind is one more member here, its schema in core/parse/marks.ts, its module in core/shapes and a line in the list there;
 * then `npm run schemas`. The compiler names what is missing.
 */
export type Shape =
  | LineShape
  | AngleShape
  | BoxShape
  | CircleShape
  | FreeShape
  | ArrowShape
  | TextShape
  | PathShape
  | GroundShape
  | EdgeShape;
export type ShapeKind = Shape['kind'];

/** Everything a coach has put on one frame of one clip. */
export interface FrameMarks {
  readonly frame: FrameRef;
  readonly points: Readonly<Partial<Record<BodyPointId, PlacedPoint>>>;
  readonly shapes: readonly Shape[];
}
