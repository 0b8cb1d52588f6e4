import type { CaptureRate, FrameSpan, Ratio } from '../model/frame.ts';
import type { ClipIndex, DynamicRange, LeftOut } from './clip-index.ts';
import { ticksToSeconds } from './rational.ts';

/** A clip as the command line prints it. */
export interface ClipDescription {
  readonly width: number;
  readonly height: number;
  readonly turn: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
  readonly pixelAspect: Ratio;
  readonly timebase: Ratio;
  readonly count: number;
  readonly variable: boolean;
  readonly nominalRate: Ratio | null;
  readonly captureRate: CaptureRate | null;
  readonly sound: boolean;
  readonly dynamicRange: DynamicRange;
  readonly damage: readonly FrameSpan[];
  readonly leftOut: LeftOut | null;
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
export function describeClip(index: ClipIndex): ClipDescription {
  return {
    width: index.width,
    height: index.height,
    turn: index.turn,
    mirrored: index.mirrored,
    pixelAspect: index.pixelAspect,
    timebase: index.timebase,
    count: index.frames.length,
    variable: index.variable,
    nominalRate: index.nominalRate,
    captureRate: index.captureRate,
    sound: index.sound,
    dynamicRange: index.dynamicRange,
    damage: index.damage,
    leftOut: index.leftOut,
    frames: index.frames.map((frame, place) => ({
      index: place,
      pts: frame.pts,
      seconds: ticksToSeconds(frame.pts, index.timebase),
      key: frame.key,
    })),
  };
}
