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

/** A tool's drawing within 18 x 18. */
export interface ToolIcon {
  /** SVG paths. */
  readonly line: string;
  readonly dashed?: string;
  readonly dots?: readonly (readonly [x: number, y: number])[];
}

/** How a kind's tool is taken in hand, and what it says. */
export interface ToolEntry {
  /** Stays the same for ever. */
  readonly key: string;
  readonly icon: ToolIcon;
  /** On its button, where the label would not fit. */
  readonly short?: string;
  /** What to do next, by the number of places there are. Left out: it depends on more (renderer/bench/tool-words.ts). */
  readonly hints?: readonly string[];
}

/** A kind that is drawn through a fixed number of places, by clicks or drags. */
export interface DrawnByPlaces<S extends Shape> {
  readonly places: number;
  /** The shape through them; null while it would be too small or lacks places. */
  through(places: readonly PicturePoint[], id: string): S | null;
  /** What is shown while places are lacking; the shape itself where left out. */
  draft?(places: readonly PicturePoint[], id: string): Shape | null;
}

/** A kind that is clicked place by place, until the coach ends it. */
export interface ClickedThrough<S extends Shape> {
  readonly fewest: number;
  /** The shape through one place or more. */
  through(places: readonly PicturePoint[], id: string): S;
}

/** A kind that follows the pointer while it is pressed; null while it would be too small. */
export type DrawnByStroke<S extends Shape> = (places: readonly PicturePoint[], id: string) => S | null;

/** All that is particular to a kind of shape. Methods, so that a list of all kinds can be asked about any shape. */
export interface ShapeKindOf<S extends Shape> {
  /** As a heading; in lower case within a sentence. */
  readonly label: string;
  /** There to measure by, not to be looked at: drawn thin, and named on its own frame only. */
  readonly isForMeasure: boolean;
  readonly tool: ToolEntry;
  /** Its gesture: one of these three. With none its tool has one of its own (renderer/tools). */
  readonly drawn?: DrawnByPlaces<S>;
  readonly clicked?: ClickedThrough<S>;
  readonly stroke?: DrawnByStroke<S>;
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
