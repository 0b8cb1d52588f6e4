/** An exact ratio of two integers; `den` > 0. Rates are frames a second, e.g. 30000/1001. */
export interface Ratio {
  readonly num: number;
  readonly den: number;
}

/**
 * One shown frame of one clip. `index` counts shown frames from 0 in presentation order; `pts` is the same frame's
 * time stamp in ticks of the clip's time base. Seconds are for people and are never used to find a frame.
 */
export interface FrameRef {
  readonly index: number;
  readonly pts: number;
}

/** A frame that a coach has named, with how long it stays on screen (ticks of the time base, > 0). */
export interface CheckpointFrame extends FrameRef {
  readonly ticks: number;
}

/**
 * How many frames a second the camera really took. `confirmed` is true when the coach has said so; otherwise it is what
 * the file's metadata claims. A clip without it (null) has times on screen but no true times.
 */
export interface CaptureRate {
  readonly framesPerSecond: Ratio;
  readonly confirmed: boolean;
}

/** Frames `from` to `to` of a clip, indices, both included, 0 <= from <= to. */
export interface FrameSpan {
  readonly from: number;
  readonly to: number;
}
