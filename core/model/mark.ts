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
}

/** What a shape stands for, beyond its form. null = just drawn. */
export const SHAPE_ROLES = ['head-box', 'plumb', 'yardstick'] as const;
export type ShapeRole = (typeof SHAPE_ROLES)[number];

interface ShapeBase {
  /** Unique within the book; a UUID. */
  readonly id: string;
  /** Shown on all frames of its clip. Without it a shape is shown on the frame that it was drawn on, and there only. */
  readonly carried?: true;
}

/** A straight line; as a `plumb` it marks the true vertical, as a `yardstick` a known real length. */
export interface LineShape extends ShapeBase {
  readonly kind: 'line';
  readonly a: PicturePoint;
  readonly b: PicturePoint;
  readonly role: 'plumb' | 'yardstick' | null;
  /** Real length in millimetres, > 0; set when and only when `role` is yardstick. */
  readonly lengthMm: number | null;
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
  readonly role: 'head-box' | null;
}

/** `radius` >= 0 in pixels. */
export interface CircleShape extends ShapeBase {
  readonly kind: 'circle';
  readonly centre: PicturePoint;
  readonly radius: number;
  /** Three or more places on the edge that the circle was fitted to; without them it was drawn from its middle. */
  readonly rim?: readonly PicturePoint[];
}

/** A line drawn by hand; it shows something and measures nothing. */
export interface FreeShape extends ShapeBase {
  readonly kind: 'free';
  /** Two or more. */
  readonly places: readonly PicturePoint[];
}

/** What a path follows. */
export const PATH_SUBJECTS = ['clubhead', 'hands'] as const;
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
}

export type Shape = LineShape | AngleShape | BoxShape | CircleShape | FreeShape | PathShape;
export type ShapeKind = Shape['kind'];

/** Everything a coach has put on one frame of one clip. */
export interface FrameMarks {
  readonly frame: FrameRef;
  readonly points: Readonly<Partial<Record<BodyPointId, PlacedPoint>>>;
  readonly shapes: readonly Shape[];
}
