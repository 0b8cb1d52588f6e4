import type { BodyPointId } from './body-points.ts';
import type { FrameRef } from './frame.ts';
import type { PlacedPoint, Shape } from './mark.ts';
import type { ReadingKey } from './reading.ts';
import type { View } from './words.ts';

/** The version of talk files that this program writes. Files with a higher one are refused. */
export const TALK_FILE_VERSION = 2;

/** What a talk-through may hold. An hour of stepping and pointing stays far below. */
export const TALK_LIMITS = {
  takes: 500,
  /** Milliseconds of one take. */
  takeLength: 4 * 60 * 60_000,
  events: 500_000,
  pieces: 10_000,
  /** Characters of a caption, a chapter's title, a key thought, a step of a drill. */
  text: 400,
  thoughts: 3,
  steps: 12,
} as const;

/** Which of the two swings, and which of its clips. */
export interface TalkClip {
  readonly which: 'then' | 'now';
  readonly view: View;
}

/** Which body point of which frame. */
export interface TalkPointName extends TalkClip {
  readonly frame: FrameRef;
  readonly point: BodyPointId;
}

/** A part of a picture, in picture coordinates; `width` and `height` > 0. */
export interface PicturePart {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** One picture on the screen. `part`: what of it is looked at; null = all of it. */
export interface TalkPane extends TalkClip {
  readonly frame: FrameRef;
  readonly part: PicturePart | null;
}

/** Where the pointer is, in picture coordinates of a pane, counted from 0. */
export interface TalkPointer {
  readonly pane: number;
  readonly x: number;
  readonly y: number;
}

/** What happened, `at` whole milliseconds after its take began, >= 0. */
export type TalkEvent = { readonly at: number } & (
  | { readonly kind: 'show'; readonly panes: readonly TalkPane[] }
  | { readonly kind: 'frame'; readonly pane: number; readonly frame: FrameRef }
  | { readonly kind: 'zoom'; readonly pane: number; readonly part: PicturePart | null }
  /** A shape is there from now on, or has changed; on its frame, or where it is carried on all of its clip. */
  | ({ readonly kind: 'draw'; readonly frame: FrameRef; readonly shape: Shape } & TalkClip)
  | { readonly kind: 'erase'; readonly shape: string }
  /** A body point is there from now on, or elsewhere; `place` null: it is gone. */
  | ({ readonly kind: 'point'; readonly place: PlacedPoint | null } & TalkPointName)
  /** Whether the swing's own marks are shown, and which readings stand on the pictures. */
  | { readonly kind: 'marks'; readonly shown: boolean; readonly readings: readonly ReadingKey[] }
  | { readonly kind: 'pointer'; readonly place: TalkPointer | null }
  /** The coach's words, until the next ones; empty = none. */
  | { readonly kind: 'caption'; readonly text: string }
  /** A finding begins. */
  | { readonly kind: 'chapter'; readonly title: string }
);

/** A sound file; `start`: which millisecond of the file goes with the beginning of the take, >= 0. */
export interface TalkSound {
  readonly file: string;
  readonly start: number;
}

/** One recording, from a press to a press. Nothing that is done later changes how long it is. */
export interface TalkTake {
  /** Milliseconds, whole, >= 1. */
  readonly length: number;
  /** null where nothing was heard: captions only. */
  readonly sound: TalkSound | null;
  /** In the order of their times; the first is a `show` at 0. */
  readonly events: readonly TalkEvent[];
}

/** A part of a take that the talk-through uses: milliseconds of the take, whole, 0 <= from < to <= its length. */
export interface TalkPiece {
  /** Counts the takes from 0. */
  readonly take: number;
  readonly from: number;
  readonly to: number;
}

/** What the last picture says. The cautions are added by the program and cannot be left out. */
export interface TalkClosing {
  readonly thoughts: readonly string[];
  readonly drill: { readonly title: string; readonly steps: readonly string[] } | null;
}

/** A talk-through: what was recorded, and which parts of it are played one after the other. */
export interface Talk {
  readonly takes: readonly TalkTake[];
  readonly pieces: readonly TalkPiece[];
  readonly closing: TalkClosing;
}

/** A part of the talk-through, whole milliseconds, from < to. */
export interface TalkSpan {
  readonly from: number;
  readonly to: number;
}

/**
 * What is put right afterwards. Times are milliseconds of the talk-through as it was before the edit. No edit touches the
 * sound that was recorded, so that each can be taken back.
 */
export type TalkEdit =
  /** All from `from` on is said anew: the take with this number follows instead. */
  | { readonly kind: 'retake'; readonly from: number; readonly take: number }
  /** Spans in the order of time that do not overlap: one part, or all silences. */
  | { readonly kind: 'cut'; readonly spans: readonly TalkSpan[] }
  /** The drawing looks so, wherever it is seen. `shape.id` tells which. */
  | { readonly kind: 'move-drawing'; readonly shape: Shape }
  | { readonly kind: 'remove-drawing'; readonly shape: string }
  /** In the place of the frame that a pane shows at a time comes another, for as long as that one was shown. */
  | { readonly kind: 'swap-frame'; readonly at: number; readonly pane: number; readonly frame: FrameRef }
  /** The words from a time on, until the next ones; in the place of words that begin at the very same time. */
  | { readonly kind: 'caption'; readonly at: number; readonly text: string }
  | { readonly kind: 'chapter'; readonly at: number; readonly title: string }
  | { readonly kind: 'closing'; readonly closing: TalkClosing };
