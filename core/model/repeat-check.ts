import type { BodyPointId } from './body-points.ts';
import type { FrameRef } from './frame.ts';
import type { FrameMarks, PicturePoint, Shape } from './mark.ts';
import type { MarkedClip } from './swing.ts';
import { CHECKPOINTS } from './words.ts';
import type { Checkpoint, Handedness, TimedCheckpoint, View } from './words.ts';

/**
 * One frame of a repeat check with every place that its points were given. It holds all that the numbers need and no
 * name: it outlives its clip, its lesson and its student.
 */
export interface RepeatFrame {
  /** The clip as it was called in the book; it may be gone. Frames with one id belong to one clip. */
  readonly clipId: string;
  readonly view: View;
  readonly handedness: Handedness;
  readonly frame: FrameRef;
  /** What the frame was named; none where it was only marked. */
  readonly checkpoints: readonly Checkpoint[];
  /** Of the picture, in pixels, >= 1. */
  readonly width: number;
  readonly height: number;
  /** Head boxes of this frame, plumbs and known lengths of its clip: they stay as they are while points are placed anew. */
  readonly shapes: readonly Shape[];
  /** Two places or more for each point, as many for every point of a check: the one that was marked, then one a round. */
  readonly placings: Readonly<Partial<Record<BodyPointId, readonly PicturePoint[]>>>;
}

/** A checkpoint that was named again without its name in sight. It holds all that the numbers need, and no name of anybody. */
export interface RepeatNaming {
  /** The clip as it was called in the book; it may be gone. */
  readonly clipId: string;
  readonly checkpoint: TimedCheckpoint;
  /** What a frame lasts there, seconds of the swing, > 0. */
  readonly frameSeconds: number;
  /** Seconds of the swing from the frame that was named before to each that was named: 0 for that one, then one a round. */
  readonly after: readonly number[];
}

/** What a coach placed and named in a repeat check; the book adds what it knows of each frame. */
export interface NewRepeatCheck {
  readonly at: string;
  /** One or more, unless there are namings. */
  readonly frames: readonly Pick<RepeatFrame, 'clipId' | 'frame' | 'placings'>[];
  readonly namings: readonly RepeatNaming[];
}

/** A named frame that was chosen for a check, to be found again. */
export type NamingChoice = Pick<RepeatNaming, 'clipId' | 'checkpoint'> & { readonly frame: FrameRef };

/** A marked frame that was chosen for a check, and the points that are to be placed on it again. */
export interface RepeatChoice {
  readonly clipId: string;
  readonly frame: FrameRef;
  /** In the order of a guided run; one or more. */
  readonly points: readonly BodyPointId[];
}

/** A frame that is shown once more in a check. */
export interface RepeatShowing {
  /** Its place in the list of chosen frames. */
  readonly choice: number;
  /** 1 or more; 0 is the place that was marked before. */
  readonly round: number;
}

/** A placed frame with all that is known of its clip at this moment. */
export function repeatFrameOf(
  clip: MarkedClip,
  handedness: Handedness,
  { clipId, frame, placings }: NewRepeatCheck['frames'][number],
): RepeatFrame {
  const { view, width, height } = clip;
  return {
    ...{ clipId, view, handedness, frame: { index: frame.index, pts: frame.pts } },
    checkpoints: CHECKPOINTS.filter((name) => clip.checkpoints[name]?.index === frame.index),
    ...{ width, height, placings },
    shapes: clip.marks.flatMap((marks) => calibrating(marks, frame.index)),
  };
}

/** What readings of the frame take besides points. A plumb or known length counts on all frames of its clip. */
function calibrating({ frame, shapes }: FrameMarks, index: number): readonly Shape[] {
  return shapes.filter((shape) =>
    shape.kind === 'line' ? shape.role !== null : shape.kind === 'box' && shape.role !== null && frame.index === index,
  );
}

/** A repeat check that was kept: its numbers are in use. */
export interface RepeatCheck {
  /** A UUID. */
  readonly id: string;
  /** When it was finished: an instant of UTC, ISO 8601 to the millisecond, e.g. 2026-05-12T09:30:00.000Z. */
  readonly at: string;
  /** One or more, unless there are namings; a frame of a clip stands once. */
  readonly frames: readonly RepeatFrame[];
  /** A checkpoint of a clip stands once. */
  readonly namings: readonly RepeatNaming[];
}
