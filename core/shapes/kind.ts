import type { Figure } from '../geometry/figure.ts';
import type { PicturePoint, Shape } from '../model/mark.ts';
import type { ShapeContext, ShapeNumber, ShapeNumberId } from '../measure/readings/shape-number.ts';

/** Names a place by which a shape can be taken; one of its kind's own. */
export type HandleName = string;

export interface Handle {
  readonly name: HandleName;
  /** In picture coordinates. */
  readonly at: PicturePoint;
  /** The handle gives a size: its place is none of the shape's own. */
  readonly isSize?: true;
}

/** How a shape is copied onto another frame. */
export interface Copying {
  /** To a frame of the same clip: nothing is changed. */
  readonly isSame: boolean;
  readonly place: (at: PicturePoint) => PicturePoint;
  /** By how much lengths grow, > 0. */
  readonly scale: number;
}

/** A kind that is drawn through a fixed number of places, by clicks or drags. Its tool needs nothing more. */
export interface DrawnByPlaces<S extends Shape> {
  readonly places: number;
  /** The shape through them; null while it would be too small or lacks places. */
  through(places: readonly PicturePoint[], id: string): S | null;
  /** What is shown while places are lacking; the shape itself where left out. */
  draft?(places: readonly PicturePoint[], id: string): Shape | null;
  /** What to do next, by the number of places there are. */
  readonly hints: readonly string[];
  /** The key that takes its tool in hand; stays the same for ever. */
  readonly key: string;
  /** Its tool's drawing: an SVG path within 18 x 18. */
  readonly icon: string;
}

/** All that is particular to a kind of shape. Methods, so that a list of all kinds can be asked about any shape. */
export interface ShapeKindOf<S extends Shape> {
  /** As a heading; in lower case within a sentence. */
  readonly label: string;
  /** There to measure by, not to be looked at: drawn thin, and named on its own frame only. */
  readonly isForMeasure: boolean;
  /** Left out: its tool is one of its own (renderer/tools). */
  readonly drawn?: DrawnByPlaces<S>;
  handles(shape: S): readonly Handle[];
  /** The shape with one handle, or (null) all of it, moved by so many pixels of the picture. */
  moved(shape: S, handle: HandleName | null, by: PicturePoint): S;
  /** What is drawn, from back to front. */
  figures(shape: S): readonly Figure[];
  /** What a press must be near to take it; all that is drawn where left out. */
  taken?(shape: S): readonly Figure[];
  /** What the label stands beside where there is no arc. */
  labelAt(shape: S): PicturePoint;
  numbers(shape: S, context: ShapeContext): readonly ShapeNumber[];
  /** What stands beside it; empty when it has no extent to measure. `number`: one of its numbers as a text, or ''. */
  text(shape: S, number: (id: ShapeNumberId) => string): string;
  /**
   * A copy with another id. What a shape stands for holds for its own clip: a copy onto another clip is plain. null for what
   * belongs to the frames or the camera of its clip.
   */
  copied(shape: S, id: string, to: Copying): S | null;
}

/** Whether a copy shows on all frames, as its original does. */
export function carriedOf({ carried }: Shape): { readonly carried?: true } {
  return carried === true ? { carried } : {};
}
