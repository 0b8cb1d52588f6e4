import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import type { ErrorCode, ErrorDetail } from '../model/errors.ts';
import type { Goals } from '../model/goals.ts';
import type { MarkedSwing } from '../model/swing.ts';
import type { Talk } from '../model/talk.ts';
import type { FilmShape } from '../talk/film-plan.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';

/** What goes to the thread that makes a video: plain values. */
export interface TalkWork {
  /** Sounds are named by absolute paths. */
  readonly talk: Talk;
  readonly now: MarkedSwing;
  readonly then: MarkedSwing | null;
  /** By `clipKey`; those that the talk-through shows. */
  readonly clips: Readonly<Record<string, { readonly path: string; readonly index: ClipIndex }>>;
  readonly goals: Goals;
  readonly placing: PlacingErrors | null;
  readonly shape: FilmShape;
  readonly burnCaptions: boolean;
  readonly cautions: readonly string[];
  readonly ffmpeg: Ffmpeg;
  /** Absolute; a new file beside which nothing else is left. */
  readonly out: string;
  /** What the coach knows it as. */
  readonly named: string;
}

/** What comes back while it works, and at the end. */
export type TalkAnswer =
  | { readonly does: 'report'; readonly label: string; readonly done: number; readonly total: number }
  | { readonly does: 'finish'; readonly facts: FilmFacts }
  | { readonly does: 'trouble'; readonly code: ErrorCode; readonly message: string; readonly detail: ErrorDetail }
  | { readonly does: 'fault'; readonly stack: string };

export interface FilmFacts {
  /** Pictures of the video, those of the closing card too. */
  readonly pictures: number;
  /** How many of them had to be painted. */
  readonly painted: number;
}

/** A clip of one of the two swings, as a key. */
export function clipKey({ which, view }: { readonly which: string; readonly view: string }): string {
  return `${which} ${view}`;
}
