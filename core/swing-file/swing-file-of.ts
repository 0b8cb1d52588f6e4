import { isAbsolute, relative, sep } from 'node:path';
import type { BookClip, BookSwing } from '../model/book.ts';
import { SWING_FILE_VERSION } from '../model/swing-file.ts';
import type { SwingFile } from '../model/swing-file.ts';

/**
 * A swing of the book as a swing file. Of the student only the first name goes out, and whether it is a child. A consent
 * stays: it was given to this coach.
 *
 * `clipPathOf` gives the absolute path of each clip. A clip within `folder` (where the swing file will lie, when given)
 * is named relative to it, so that the two can be moved together.
 */
export function swingFileOf(
  { student, lesson, clips, pins, page }: BookSwing,
  clipPathOf: (clip: BookClip) => string,
  folder: string | null = null,
): SwingFile {
  return {
    format: 'baybook-swing',
    version: SWING_FILE_VERSION,
    student: { firstName: student.firstName, ...(student.child === true ? { child: true } : {}) },
    lesson: { date: lesson.date, club: lesson.club, handedness: lesson.handedness },
    clips: clips.map((clip) => ({
      view: clip.view,
      file: pathFrom(folder, clipPathOf(clip)),
      sha256: clip.sha256,
      width: clip.width,
      height: clip.height,
      timebase: clip.timebase,
      nominalRate: clip.nominalRate,
      captureRate: clip.captureRate,
      checkpoints: clip.checkpoints,
      marks: clip.marks,
    })),
    pins,
    page,
  };
}

function pathFrom(folder: string | null, path: string): string {
  if (folder === null) return path;
  const within = relative(folder, path);
  if (within === '..' || within.startsWith(`..${sep}`) || isAbsolute(within)) return path;
  return within.split(sep).join('/');
}
