import type { ClipIndex } from './clip-index.ts';
import { ticksToSeconds } from './rational.ts';

/** A clip as the command line prints it. */
export interface ClipDescription extends Omit<ClipIndex, 'frames'> {
  readonly count: number;
  readonly frames: readonly {
    readonly index: number;
    readonly pts: number;
    readonly seconds: number;
    readonly key: boolean;
  }[];
}

/**
 * Describes a clip for the command line. Sizes in pixels as displayed; every ratio is {num, den} in lowest terms, as in
 * swing files; `count` is the number of frames shown; `seconds` is pts x timebase, not rounded.
 */
export function describeClip({ frames, ...clip }: ClipIndex): ClipDescription {
  return {
    ...clip,
    count: frames.length,
    frames: frames.map(({ pts, key }, index) => ({ index, pts, seconds: ticksToSeconds(pts, clip.timebase), key })),
  };
}
