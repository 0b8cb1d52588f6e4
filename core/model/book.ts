import type { LessonPage } from './lesson-page.ts';
import type { ReadingKey } from './reading.ts';
import type { TalkEdit } from './talk.ts';
import type { ClipFacts, MarkedClip, SwingBeside } from './swing.ts';
import type { Checkpoint, Handedness, View } from './words.ts';

/** Records of the book as the program hands them round. Ids are UUIDs; days are ISO 8601 (2026-05-12). */

export interface Student {
  readonly id: string;
  /** 1 to 80 characters; the only name that ever leaves the book on a still. */
  readonly firstName: string;
  /** May be empty. */
  readonly lastName: string;
  readonly handedness: Handedness;
  /** A child: consent is asked for before anything of a lesson goes out. Left out = no, or nobody said. No age is kept. */
  readonly child?: true;
}

export interface Lesson {
  readonly id: string;
  readonly studentId: string;
  readonly date: string;
  /** 1 to 80 characters. */
  readonly club: string;
  readonly handedness: Handedness;
  readonly note: string;
  /** The coach has confirmed that a child and a parent or guardian agree to what goes out of it. Left out = not, or not yet. */
  readonly consent?: true;
}

export interface Swing {
  readonly id: string;
  readonly lessonId: string;
  /** Shown name, e.g. "Swing 1". */
  readonly label: string;
}

export interface Clip extends ClipFacts {
  readonly id: string;
  readonly swingId: string;
  readonly view: View;
  /** Name of the file as the coach chose it, for people. */
  readonly originalName: string;
  /** SHA-256 of its bytes, 64 hex digits; the identity of the file. */
  readonly sha256: string;
  readonly bytes: number;
  /** `copied`: the book owns a copy in its media folder. `linked`: the file stays where the coach keeps it. */
  readonly stored: 'copied' | 'linked';
  readonly frameCount: number;
  /** Where the clip lies in the file that the coach chose; null when it is all of it. */
  readonly kept: KeptPart | null;
  /** Its part is still to be taken out of the file that the coach chose, and is read from there meanwhile. Left out = no. */
  readonly coming?: true;
}

/** A part of a longer clip: frame 0 of the part is frame `first` of the `of` frames of the whole, first < of. */
export interface KeptPart {
  readonly first: number;
  readonly of: number;
}

/** What came of taking a part out of a longer clip. */
export interface PartKept {
  /** The clip's id from then on: another one where its numbers moved. */
  readonly id: string;
  /** By how many frames they moved, >= 0: it had to begin earlier than was told. */
  readonly shift: number;
  /** It could not be cut, so that the book took all of the longer clip. */
  readonly whole: boolean;
}

/** A clip of the book with its named frames and marks. */
export type BookClip = Clip & MarkedClip;

export interface BookSwing {
  readonly student: Student;
  readonly lesson: Lesson;
  readonly swing: Swing;
  /** At most one a view. */
  readonly clips: readonly BookClip[];
  /** Readings that the coach wants on the stills; where a cell has none of them, all stand there. */
  readonly pins: readonly ReadingKey[];
  /** What the lesson sends in words; empty until the coach writes it. */
  readonly page: LessonPage;
  /** What was put right in its talk-through, in order; left out = nothing. */
  readonly talkEdits?: readonly TalkEdit[];
  /** The lesson's other swings that have a clip, in their order; left out = none. */
  readonly besides?: readonly SwingBeside[];
}

/** What a list shows of a clip: a small picture of a named frame. */
export interface OverviewClip extends Pick<Clip, 'id' | 'view'> {
  /** Frame numbers by the checkpoint they are named as. */
  readonly named: Readonly<Partial<Record<Checkpoint, number>>>;
}

/** A student with everything a list needs: lessons newest first, swings in the order they were added. */
export interface StudentOverview {
  readonly student: Student;
  readonly lessons: readonly {
    readonly lesson: Lesson;
    /** What its page says, where it has one. */
    readonly page?: Pick<LessonPage, 'findings' | 'keyThoughts'>;
    readonly swings: readonly {
      readonly swing: Swing;
      readonly clips: readonly OverviewClip[];
    }[];
  }[];
}
