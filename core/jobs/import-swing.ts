import { randomUUID } from 'node:crypto';
import { say } from '../model/say.ts';
import type { Book } from '../book/book.ts';
import type { Clip, Swing } from '../model/book.ts';
import { AppError } from '../model/errors.ts';
import { isEmptyPage } from '../model/lesson-page.ts';
import type { FrameRef } from '../model/frame.ts';
import type { FrameMarks } from '../model/mark.ts';
import type { SwingFile, SwingFileClip } from '../model/swing-file.ts';
import type { View } from '../model/words.ts';
import { clipFileOf } from '../swing-file/clip-file-of.ts';
import { frameWithPts } from '../time/frame-table.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { importClip } from './import-clip.ts';
import { stopIfCancelled } from './job-context.ts';
import type { JobContext } from './job-context.ts';

export interface SwingOrder {
  readonly swing: SwingFile;
  /** Whose swing it becomes; null: of a new student, as the file has it. */
  readonly studentId: string | null;
  /** Where the clip of each view is; a view without one is left out. */
  readonly files: Readonly<Partial<Record<View, string>>>;
}

/**
 * Brings the swing of a swing file into the book: always as a new swing, in the student's lesson of that day, club and
 * side, else in a new one. Its clips are copied, and only taken when they are the very clips that were marked. Names and
 * marks go by time stamp; shapes get new ids, so that one swing can be brought in twice. Points keep what had been proposed,
 * but teach nothing of it: another hand may have corrected them. On an error or a cancel nothing of it stays.
 *
 * @throws AppError `bad-request` without any clip, `clip-moved`, `clip-changed`, `swing-file-invalid` when a frame is not
 *   in its clip, `no-such-record`, `cancelled`, and what importing a clip may throw.
 */
export async function importSwing(book: Book, order: SwingOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<Swing> {
  const clips = order.swing.clips.flatMap((clip) => {
    const path = order.files[clip.view];
    return path === undefined ? [] : [{ clip, path }];
  });
  if (clips.length === 0)
    throw new AppError('bad-request', say`Choose at least one of the clips that this swing was marked on.`);
  for (const { clip, path } of clips) {
    run.report(say`Comparing the clips with the swing file`, 0, null);
    await clipFileOf({ file: path, sha256: clip.sha256 }, '', { signal: run.signal });
    stopIfCancelled(run.signal);
  }
  const place = makePlace(book, order);
  try {
    for (const { clip, path } of clips) {
      const { view } = clip;
      const made = await importClip(book, { swingId: place.swing.id, view, path, stored: 'copied' }, ffmpeg, run);
      putMarks(book, made, clip);
    }
    const views = clips.map(({ clip }) => clip.view);
    book.setPins(
      place.swing.id,
      order.swing.pins.filter(({ view }) => views.includes(view)),
    );
    // A lesson that was there before may have a page of its own, which stays.
    if (isEmptyPage(book.openSwing(place.swing.id).page)) book.setPage(place.swing.id, order.swing.page);
    return place.swing;
  } catch (cause) {
    place.takeBack();
    throw cause;
  }
}

/** A new swing to bring it into, and how to take all of that away again. */
function makePlace(book: Book, { swing, studentId }: SwingOrder): { swing: Swing; takeBack: () => void } {
  const { date, club, handedness } = swing.lesson;
  if (studentId === null) {
    const student = book.addStudent({ ...swing.student, lastName: '', handedness });
    const lesson = book.addLesson({ studentId: student.id, date, club, handedness, note: '' });
    const added = book.addSwing({ lessonId: lesson.id, label: say`Swing 1` });
    return { swing: added, takeBack: () => book.removeStudent(student.id) };
  }
  const lessons = book.listStudents().find(({ student }) => student.id === studentId)?.lessons ?? [];
  const there = lessons.find(
    ({ lesson }) => lesson.date === date && lesson.club === club && lesson.handedness === handedness,
  );
  if (there === undefined) {
    const lesson = book.addLesson({ studentId, date, club, handedness, note: '' });
    const added = book.addSwing({ lessonId: lesson.id, label: say`Swing 1` });
    return { swing: added, takeBack: () => book.removeLesson(lesson.id) };
  }
  const labels = there.swings.map((each) => each.swing.label);
  let number = there.swings.length + 1;
  while (labels.includes(say`Swing ${String(number)}`)) number += 1;
  const added = book.addSwing({ lessonId: there.lesson.id, label: say`Swing ${String(number)}` });
  return { swing: added, takeBack: () => book.removeSwing(added.id) };
}

function putMarks(book: Book, made: Clip, { captureRate, checkpoints, marks }: SwingFileClip): void {
  const index = book.clipIndex(made.id);
  const frameOf = ({ index: number, pts }: FrameRef): FrameRef => {
    const found = frameWithPts(index, pts);
    if (found === null)
      throw new AppError(
        'swing-file-invalid',
        say`The swing file speaks of frame ${String(number)} of ${made.originalName}, which that clip does not have. Have the swing exported anew.`,
        { detail: { pts } },
      );
    return { index: found, pts };
  };
  book.leaveOutOfLearning(made.id, latestOf(marks));
  book.setCaptureRate(made.id, captureRate);
  for (const [checkpoint, frame] of Object.entries(checkpoints) as [keyof typeof checkpoints, FrameRef][])
    book.setCheckpoint(made.id, checkpoint, frameOf(frame));
  for (const each of marks) {
    const shapes = each.shapes.map((shape) => ({ ...shape, id: randomUUID() }));
    book.saveMarks(made.id, { frame: frameOf(each.frame), points: each.points, shapes });
  }
}

/** Now, or the last time something was proposed where another computer's clock is ahead. */
function latestOf(marks: readonly FrameMarks[]): string {
  const proposed = marks.flatMap(({ points }) => Object.values(points).flatMap((point) => point.proposed?.at ?? []));
  return [new Date().toISOString(), ...proposed].toSorted().at(-1) ?? '';
}
