import type { CaptureRate, CheckpointFrame, FrameRef, Ratio } from './frame.ts';
import type { FrameMarks, Shape } from './mark.ts';
import type { ReadingKey } from './reading.ts';
import type { Checkpoint, Handedness, View } from './words.ts';

/** The facts of a clip that readings and stills need. Sizes are of the displayed frame, in pixels, >= 1. */
export interface ClipFacts {
  readonly width: number;
  readonly height: number;
  /** Seconds a tick, e.g. 1/15360. */
  readonly timebase: Ratio;
  /** Frames a second as stored in the file, or null when only one frame is shown. */
  readonly nominalRate: Ratio | null;
  readonly captureRate: CaptureRate | null;
}

/** One view of one swing, with all that the coach named and marked on it. */
export interface MarkedClip extends ClipFacts {
  readonly view: View;
  readonly checkpoints: Readonly<Partial<Record<Checkpoint, CheckpointFrame>>>;
  /** At most one entry a frame. */
  readonly marks: readonly FrameMarks[];
}

/** What readings are computed from: one swing of one lesson, with at most one clip a view. */
export interface MarkedSwing {
  readonly studentFirstName: string;
  /** Day of the lesson, ISO 8601, e.g. 2026-05-12. */
  readonly date: string;
  readonly club: string;
  readonly handedness: Handedness;
  readonly clips: readonly MarkedClip[];
  /** Readings that the coach wants on the stills; left out, or none in a cell: all. */
  readonly pins?: readonly ReadingKey[];
  /** What it is called in its lesson, for the coach. */
  readonly label?: string;
  /** The lesson's other swings that have a clip: two lessons are compared by the means of their swings. */
  readonly besides?: readonly SwingBeside[];
}

/** Another swing of the same lesson: same day, player and club. */
export interface SwingBeside {
  readonly label: string;
  readonly clips: readonly MarkedClip[];
}

/** Where a student, a lesson and clips stand together: the book, a swing file. */
export interface SwingSourceFacts {
  readonly student: { readonly firstName: string };
  readonly lesson: { readonly date: string; readonly club: string; readonly handedness: Handedness };
  readonly clips: readonly MarkedClip[];
  readonly pins?: readonly ReadingKey[];
  readonly swing?: { readonly label: string };
  readonly besides?: readonly SwingBeside[];
}

/** What readings are made from. The clips stay the values they are: what was read from one is found again by it. */
export function markedSwingOf({
  student,
  lesson,
  clips,
  pins = [],
  swing,
  besides = [],
}: SwingSourceFacts): MarkedSwing {
  const { date, club, handedness } = lesson;
  return {
    ...{ studentFirstName: student.firstName, date, club, handedness, clips, pins },
    ...(swing === undefined ? {} : { label: swing.label }),
    ...(besides.length === 0 ? {} : { besides }),
  };
}

/** As `markedSwingOf`, without all that a clip carries besides: its file, its name, its place in the book. */
export function bareSwingOf(source: SwingSourceFacts): MarkedSwing {
  const besides = (source.besides ?? []).map(({ label, clips }) => ({ label, clips: clips.map(bareClipOf) }));
  return markedSwingOf({ ...source, clips: source.clips.map(bareClipOf), besides });
}

function bareClipOf(clip: MarkedClip): MarkedClip {
  const { view, width, height, timebase, nominalRate, captureRate, checkpoints, marks } = clip;
  return { view, width, height, timebase, nominalRate, captureRate, checkpoints, marks };
}

/** Finds what is marked on the frame that is named `checkpoint`, or null when it is not named or bears no marks. */
export function marksAt(clip: Pick<MarkedClip, 'checkpoints' | 'marks'>, checkpoint: Checkpoint): FrameMarks | null {
  const named = clip.checkpoints[checkpoint];
  if (named === undefined) return null;
  return clip.marks.find((marks) => marks.frame.index === named.index) ?? null;
}

/** Shapes that show on a frame though they are kept with another one: carried shapes, and paths. */
export function carriedTo(clip: Pick<MarkedClip, 'marks'>, frameIndex: number): readonly Shape[] {
  return clip.marks.flatMap(({ frame, shapes }) =>
    frame.index === frameIndex ? [] : shapes.filter((shape) => shape.carried === true || shape.kind === 'path'),
  );
}

/** Ids of the shapes that only show on a frame, for drawing them quieter. */
export function carriedIds(clip: Pick<MarkedClip, 'marks'>, frameIndex: number): ReadonlySet<string> {
  return new Set(carriedTo(clip, frameIndex).map(({ id }) => id));
}

/** All that shows on a frame: what is carried to it, and above that what is marked on it. */
export function marksShownOn(clip: Pick<MarkedClip, 'marks'>, { index, pts }: FrameRef): FrameMarks {
  const own = clip.marks.find((marks) => marks.frame.index === index);
  return {
    frame: { index, pts },
    points: own?.points ?? {},
    shapes: [...carriedTo(clip, index), ...(own?.shapes ?? [])],
  };
}
