import type { CaptureRate, CheckpointFrame, Ratio } from './frame.ts';
import type { LessonPage } from './lesson-page.ts';
import type { FrameMarks } from './mark.ts';
import type { ReadingKey } from './reading.ts';
import type { Checkpoint, Handedness, View } from './words.ts';

/** The version this program writes. Files with a higher one are refused, lower ones are read. */
export const SWING_FILE_VERSION = 7;

/**
 * One swing outside the book, as JSON: everything that was named and marked, and where the clips are. Documented for
 * others by resources/swing-file.schema.json, which comes from the parser (`npm run schemas`). Read and written by core/swing-file.
 */
export interface SwingFile {
  readonly format: 'baybook-swing';
  readonly version: number;
  /** `child`: whoever makes something of the swing is reminded of consent. */
  readonly student: { readonly firstName: string; readonly child?: true };
  readonly lesson: { readonly date: string; readonly club: string; readonly handedness: Handedness };
  readonly clips: readonly SwingFileClip[];
  /** Readings that the coach wants on the stills; where a cell has none of them, all. */
  readonly pins: readonly ReadingKey[];
  /** What its lesson sends in words. */
  readonly page: LessonPage;
}

export interface SwingFileClip {
  readonly view: View;
  /** Path of the clip: relative to the swing file's folder, or absolute. */
  readonly file: string;
  /** SHA-256 of the clip's bytes, 64 hex digits. */
  readonly sha256: string;
  readonly width: number;
  readonly height: number;
  readonly timebase: Ratio;
  readonly nominalRate: Ratio | null;
  readonly captureRate: CaptureRate | null;
  readonly checkpoints: Readonly<Partial<Record<Checkpoint, CheckpointFrame>>>;
  readonly marks: readonly FrameMarks[];
}
