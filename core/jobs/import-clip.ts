import { basename, resolve } from 'node:path';
import type { Book } from '../book/book.ts';
import { storeClipFile, takeIntoUse } from '../book/media.ts';
import { requireFile } from '../files/find-file.ts';
import { hashFile } from '../files/hash-file.ts';
import type { BookSwing, Clip } from '../model/book.ts';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { VIEW_LABELS, type View } from '../model/words.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { readRecentIndex } from '../video/index/recent-index.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';

export interface ImportOrder {
  readonly swingId: string;
  /** The clip comes into a new swing of that swing's lesson, which is made with it. */
  readonly asNewSwing?: boolean;
  readonly view: View;
  readonly path: string;
  /** `copied`: the book takes a copy. `linked`: the file stays where it is and must not be moved. */
  readonly stored: 'copied' | 'linked';
}

/**
 * Brings a clip into a swing: first all that can be wrong with it, then the copy, last one row in the book. An error, a
 * cancel or a kill on the way leaves the book as it was.
 *
 * The frame table comes from the file's own list and is there at once. It is held against a decode of the whole clip
 * afterwards, with the first pass over it (settle-clip.ts).
 *
 * @throws AppError `bad-request` when the swing has a clip of that view or has this very clip; `no-such-record`,
 *   `cancelled`, and what reading a clip and storing a file may throw.
 */
export async function importClip(book: Book, order: ImportOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<Clip> {
  const { signal } = run;
  const path = resolve(order.path);
  const beside = book.openSwing(order.swingId);
  if (order.asNewSwing !== true) refuseSecondClip(beside, order.view);
  if (order.asNewSwing !== true) await refuseSameFile(book, order.swingId, path, signal);
  run.report(say`Reading the table of frames`, 0, null);
  const index = await readRecentIndex(path, { ffmpeg, signal });
  stopIfCancelled(signal);

  const label = order.stored === 'copied' ? say`Copying the clip` : say`Reading the clip`;
  const file = await storeClipFile(book, path, {
    how: order.stored,
    signal,
    onProgress: (done, total) => run.report(label, done, total),
  });
  // Nothing may come between the stored file and its row: from here on it is too late to cancel.
  const { view } = order;
  return takeIntoUse(book, file, () =>
    book.database.write(() =>
      book.addClip({ swingId: swingFor(book, order), view, originalName: basename(path), file, index }),
    ),
  );
}

/** The swing that a clip comes into: the one that is meant, or a new one of its lesson, named by its place. */
export function swingFor(book: Book, { swingId, asNewSwing }: Pick<ImportOrder, 'swingId' | 'asNewSwing'>): string {
  if (asNewSwing !== true) return swingId;
  const lessonId = book.openSwing(swingId).lesson.id;
  const lessons = book.listStudents().flatMap((student) => student.lessons);
  const before = lessons.find(({ lesson }) => lesson.id === lessonId)?.swings.length ?? 0;
  return book.addSwing({ lessonId, label: say`Swing ${before + 1}` }).id;
}

/** The book refuses it as well, but only after a long decode and a copy. */
export function refuseSecondClip({ clips }: BookSwing, view: View): void {
  if (clips.some((clip) => clip.view === view))
    throw new AppError(
      'bad-request',
      say`This swing already has a clip of the view "${VIEW_LABELS[view]}". Remove that one, or use another swing.`,
    );
}

/** One camera cannot have stood in two places. Only a file of the same length is read to find out. */
export async function refuseSameFile(book: Book, swingId: string, path: string, signal: AbortSignal): Promise<void> {
  const { bytes } = await requireFile(path);
  const alike = book.openSwing(swingId).clips.filter((clip) => clip.bytes === bytes && clip.coming !== true);
  if (alike.length === 0) return;
  const { sha256 } = await hashFile(path, { signal });
  const same = alike.find((clip) => clip.sha256 === sha256);
  if (same !== undefined)
    throw new AppError(
      'bad-request',
      say`This clip is in this swing already, as "${VIEW_LABELS[same.view]}". Choose the clip of the other camera.`,
    );
}
