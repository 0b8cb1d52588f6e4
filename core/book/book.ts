import type { BookSwing } from '../model/book.ts';
import type { MarkedSwing } from '../model/swing.ts';
import type { CheckpointOperations } from './checkpoints.ts';
import type { ClipOperations } from './clips.ts';
import type { BookDatabase } from './database.ts';
import type { LessonOperations } from './lessons.ts';
import type { MarkOperations } from './marks.ts';
import type { MediaFolder } from './media-folder.ts';
import type { StudentOperations } from './students.ts';
import type { SwingOperations } from './swings.ts';

/** An open book. Every operation is done when it returns; files are handled by media.ts. */
export interface Book
  extends StudentOperations, LessonOperations, SwingOperations, ClipOperations, CheckpointOperations, MarkOperations {
  /** Absolute. */
  readonly folder: string;
  /** For core/book only. */
  readonly database: BookDatabase;
  /** For core/book only. */
  readonly media: MediaFolder;
  /** Ends the use of the book; a second call does nothing. Operations on a closed book throw. */
  close(): void;
}

/** What readings and stills need of a swing, and no more of the student than the first name. */
export function toMarkedSwing({ student, lesson, clips }: BookSwing): MarkedSwing {
  return {
    studentFirstName: student.firstName,
    date: lesson.date,
    club: lesson.club,
    handedness: lesson.handedness,
    clips: clips.map(({ view, width, height, timebase, nominalRate, captureRate, checkpoints, marks }) => ({
      ...{ view, width, height, timebase, nominalRate, captureRate, checkpoints, marks },
    })),
  };
}
