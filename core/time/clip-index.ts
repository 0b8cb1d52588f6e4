import type { CaptureRate, FrameSpan, Ratio } from '../model/frame.ts';

/** One frame that is shown, in presentation order. Its index is its place in the list. */
export interface ShownFrame {
  /** Ticks of the time base, strictly increasing over the list. */
  readonly pts: number;
  /** How long it stays on screen, in ticks, > 0; for the last frame what the file says, else the gap before it. */
  readonly ticks: number;
  /** Whether decoding may start at it. */
  readonly key: boolean;
}

/** How bright a clip's light may get: standard, or the curve of its high dynamic range (ITU-R BT.2100). */
export const DYNAMIC_RANGES = ['sdr', 'hlg', 'pq'] as const;
export type DynamicRange = (typeof DYNAMIC_RANGES)[number];

/** Pictures that a file holds and that are no frames of the clip. */
export interface LeftOut {
  /** At the time of another one, which is the frame. */
  readonly doubled: number;
  /** Decoded but never shown, by the file's own edits. */
  readonly hidden: number;
  /** Without any time. */
  readonly timeless: number;
}

/** Where every shown frame of a clip lies in time, and how its pictures must be turned to stand upright. */
export interface ClipIndex {
  /** Size as displayed: turned upright, pixels made square (never fewer pixels than stored). */
  readonly width: number;
  readonly height: number;
  /** Quarter turns in degrees, clockwise, from the stored to the upright picture, applied after `mirrored`. */
  readonly turn: 0 | 90 | 180 | 270;
  /** Whether the stored picture is mirrored left to right before it is turned. */
  readonly mirrored: boolean;
  /** Width of a stored pixel over its height. */
  readonly pixelAspect: Ratio;
  /** Seconds a tick. */
  readonly timebase: Ratio;
  /** Whether the gaps between frames differ by more than the rounding of the time base. */
  readonly variable: boolean;
  /** Frames a second of the shown frames (average when variable); null with fewer than two frames. */
  readonly nominalRate: Ratio | null;
  /** What the file's metadata says the camera took a second, never confirmed; null when it does not say. */
  readonly captureRate: CaptureRate | null;
  /** Whether there is a sound track. */
  readonly sound: boolean;
  readonly dynamicRange: DynamicRange;
  readonly frames: readonly ShownFrame[];
  /**
   * Frames whose picture cannot be trusted: the decoder met an error there, up to the next key frame, or it did not
   * deliver them at all. Sorted, spans neither overlap nor touch; empty when no damage is known.
   */
  readonly damage: readonly FrameSpan[];
  /** Null for a clip that came into its book before they were counted. */
  readonly leftOut: LeftOut | null;
}
