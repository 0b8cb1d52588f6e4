import { stat } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import type { Book } from '../book/book.ts';
import { storeClipFile, takeIntoUse } from '../book/media.ts';
import { hashFile } from '../files/hash-file.ts';
import type { BookSwing, Clip } from '../model/book.ts';
import { AppError } from '../model/errors.ts';
import { VIEW_LABELS, type View } from '../model/words.ts';
import type { Ffmpeg } from '../video/find-ffmpeg.ts';
import { readClipIndex } from '../video/read-clip-index.ts';
import { stopIfCancelled, type JobRun } from './job-run.ts';

export interface ImportOrder {
  readonly swingId: string;
  readonly view: View;
  readonly path: string;
  /** `copied`: the book takes a copy. `linked`: the file stays where it is and must not be moved. */
  readonly stored: 'copied' | 'linked';
}

/**
 * Brings a clip into a swing: first all that can be wrong with it, then the copy, last one row in the book. An error, a
 * cancel or a kill on the way leaves the book as it was.
 *
 * The frame table is held against a full decode, which takes about as long as playing the clip: marks hang on frame
 * numbers for good, so this is the one moment to be certain of them.
 *
 * @throws AppError `bad-request` when the swing has a clip of that view or has this very clip, `no-such-record`,
 *   `cancelled`, and what reading a clip and storing a file may throw.
 */
export async function importClip(book: Book, order: ImportOrder, ffmpeg: Ffmpeg, run: JobRun): Promise<Clip> {
  const { signal } = run;
  const path = resolve(order.path);
  refuseSecondClip(book.openSwing(order.swingId), order.view);
  await refuseSameFile(book, order.swingId, path, signal);

  run.report('Reading every frame of the clip', 0, null);
  const index = await readClipIndex(path, { ffmpeg, signal, verify: true });
  stopIfCancelled(signal);

  const label = order.stored === 'copied' ? 'Copying the clip' : 'Reading the clip';
  const file = await storeClipFile(book, path, {
    how: order.stored,
    signal,
    onProgress: (done, total) => run.report(label, done, total),
  });
  // Nothing may come between the stored file and its row: from here on it is too late to cancel.
  const clip = { swingId: order.swingId, view: order.view, originalName: basename(path), file, index };
  return takeIntoUse(book, file, () => book.addClip(clip));
}

/** The book refuses it as well, but only after a long decode and a copy. */
function refuseSecondClip({ clips }: BookSwing, view: View): void {
  if (clips.some((clip) => clip.view === view))
    throw new AppError(
      'bad-request',
      `This swing already has a clip of the view "${VIEW_LABELS[view]}". Remove that one, or use another swing.`,
    );
}

/** One camera cannot have stood in two places. Only a file of the same length is read to find out. */
async function refuseSameFile(book: Book, swingId: string, path: string, signal: AbortSignal): Promise<void> {
  const bytes = await stat(path).then(
    (facts) => (facts.isFile() ? facts.size : null),
    () => null,
  );
  const alike = book.openSwing(swingId).clips.filter((clip) => clip.bytes === bytes);
  if (alike.length === 0) return;
  const { sha256 } = await hashFile(path, { signal });
  const same = alike.find((clip) => clip.sha256 === sha256);
  if (same !== undefined)
    throw new AppError(
      'bad-request',
      `This clip is in this swing already, as "${VIEW_LABELS[same.view]}". Choose the clip of the other camera.`,
    );
}
