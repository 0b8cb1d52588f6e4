import type { PictureQuality } from './picture-layout.ts';

/**
 * How far pictures are made and fetched ahead of the hand, in frames: the one policy of the frame server, which makes them,
 * and of the page, which fetches and decodes them. The page asks for less than stands ready: its pictures are decoded ones,
 * dozens of times as large.
 */

/** How far an ffmpeg that stands ready reaches around the frame that was asked for last. */
export interface WindowReach {
  /** Made before a frame that was jumped to, so that the first steps back are there at once. */
  readonly behind: number;
  /** Made ahead of the latest request. */
  readonly ahead: number;
  /** How long after a frame that was jumped to those ahead of it are made, ms: until then the page makes it a picture. */
  readonly aheadAfterMs: number;
  /** A backward stretch is made as a whole, since decoding only runs forward. */
  readonly backStretch: number;
  /** So near to a frame that is missing, making it begins before it is asked for. */
  readonly near: number;
  /** What handing on a frame costs, where decoding one without handing it on costs 1. */
  readonly handOnCost: number;
}

/**
 * `proxy`, small coded pictures: most of a second ahead at 60 steps a second. `sharp`, raw ones of full size: each costs as
 * much to carry as several to decode, and megabytes to keep.
 */
export const MADE_AHEAD: Readonly<Record<PictureQuality, WindowReach>> = {
  proxy: { behind: 3, ahead: 32, aheadAfterMs: 0, backStretch: 48, near: 12, handOnCost: 2.5 },
  sharp: { behind: 2, ahead: 4, aheadAfterMs: 500, backStretch: 10, near: 2, handOnCost: 5 },
};

/**
 * What the page fetches. `proxy`: so many in the direction of travel, so many at a time. `sharp`: once the frame has rested
 * so long, in milliseconds, it and so many neighbours each way, one after the other; the rest is longer than a held key
 * repeats (30 a second and slower), and too short to be noticed when it ends.
 */
export const FETCHED_AHEAD = {
  proxy: { ahead: 8, atOnce: 3 },
  sharp: { restMs: 60, around: 2 },
} as const;
