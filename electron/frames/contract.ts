import type { ErrorCode } from '../../core/model/errors.ts';
import type { FrameSpan } from '../../core/model/frame.ts';
import type { PictureLayout, PictureQuality } from '../../core/model/picture-layout.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import type { DecodePass } from '../../core/time/settle-index.ts';
import type { ClipSource } from '../../core/video/index/clip-source.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { ProxySide } from '../../core/video/proxy/proxy-size.ts';

/**
 * What the frame server, a process of its own, hears and says. Types only: the window imports no code from here. It
 * speaks to the window over a message port, one per page; ports between processes copy what they carry.
 */

/** The page sends itself this, with the port, when it comes (see preload.ts). */
export type FramesPortMessage = 'baybook:frames-port';

/**
 * `hand`: it is moved to, and those around it are made too. `cell`: by itself, as for a cell of the sheet; what stands ready
 * for the hand stays. `strip`: a key picture, as small as a strip shows it; many at a time are made in one go.
 */
export type PictureUse = 'hand' | 'cell' | 'strip';

export type FromWindow =
  /** Answered by `picture` or `none` with the same id. A newer quality for the same clip may cancel an older one. */
  | {
      readonly type: 'want';
      readonly id: number;
      readonly clip: string;
      readonly frame: number;
      readonly quality: PictureQuality;
      readonly use: PictureUse;
    }
  /** The answer is not needed any more; none may come. */
  | { readonly type: 'drop'; readonly id: number }
  /** The clip is not looked at any more: what stands ready for it is let go. */
  | { readonly type: 'leave'; readonly clip: string }
  /** Which frames of the clip have a name now; their part of the copy is made before others. */
  | { readonly type: 'named'; readonly clip: string; readonly frames: readonly number[] }
  /** The coach stops the making of the proxy, or lets it go on. */
  | { readonly type: 'copy'; readonly clip: string; readonly make: boolean };

export type ToWindow =
  | { readonly type: 'picture'; readonly id: number; readonly layout: PictureLayout; readonly data: Uint8Array }
  | { readonly type: 'none'; readonly id: number; readonly code: ErrorCode; readonly sentence: string }
  | { readonly type: 'copy'; readonly clip: string; readonly state: CopyState };

/** How far the proxy of a clip is. Frames it does not hold are made one by one, slower. */
export interface CopyState {
  readonly doing: 'waiting' | 'making' | 'stopped' | 'whole' | 'failed';
  /** Frames; `total` is what the table promises. */
  readonly written: number;
  readonly total: number;
  /** Which frames it holds, rising; not in the order in which they were made. */
  readonly ready: readonly FrameSpan[];
  /** Why it failed and what to do, else null. */
  readonly sentence: string | null;
}

/** A clip as the program opens it to the frame server. */
export interface ServedFacts {
  /** Absolute, with its size and time of change when it was last known to be the right file. */
  readonly path: string;
  readonly bytes: number;
  readonly modifiedMs: number;
  readonly index: ClipIndex;
  /** The frame of that index that is the clip's frame 0: above 0 for a part that is read out of the whole. */
  readonly first: number;
  /** How to get at its pictures, where that is known: pictures out of the copy need not wait until ffmpeg has said it. */
  readonly source: ClipSource | null;
  /** The identity of its content, by which a proxy is kept; null: no copy is made of it. */
  readonly sha256: string | null;
}

export type FromProgram =
  | {
      readonly type: 'open';
      readonly clip: string;
      readonly facts: ServedFacts;
      readonly ffmpeg: Ffmpeg;
      /** Only a few pictures are wanted: a copy is read where there is one, and none is made. */
      readonly glance: boolean;
      /** The longer side of a copy's pictures that suits the screens there are. */
      readonly longest: ProxySide;
    }
  /** Answered by `closed` once nothing reads the file any more. */
  | { readonly type: 'close'; readonly clip: string; readonly id: number }
  /** Copies of other clips than these (SHA-256) are deleted. Answered by `closed` once they are gone. */
  | { readonly type: 'keep-only'; readonly sha256s: ReadonlySet<string>; readonly id: number }
  /** No clip is looked at: each is closed once its copy is made. Answered by `idle` when none is left open. */
  | { readonly type: 'rest' }
  /** Comes with a port to a page of the window. */
  | { readonly type: 'connect' }
  /** The process ends itself once nothing is left running. */
  | { readonly type: 'end' };

export type ToProgram =
  | { readonly type: 'closed'; readonly id: number }
  /** This clip is not open any more, since nobody looks at it and its copy is made. */
  | { readonly type: 'let-go'; readonly clip: string }
  /** No clip is open. */
  | { readonly type: 'idle' }
  /** A whole copy exists, so every frame of the clip was decoded once: what came out, in order. */
  | {
      readonly type: 'decoded';
      readonly clip: string;
      readonly pass: DecodePass;
    }
  /** A fault of our own, for the log. */
  | { readonly type: 'fault'; readonly what: string; readonly stack: string };
