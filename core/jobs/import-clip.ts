import { basename, extname, join, resolve } from 'node:path';
import type { Book } from '../book/book.ts';
import { storeClipFile, takeIntoUse } from '../book/media.ts';
import { requireFile } from '../files/find-file.ts';
import { hashFile } from '../files/hash-file.ts';
import type { BookSwing, Clip, KeptPart, Swing } from '../model/book.ts';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { VIEW_LABELS, type View } from '../model/words.ts';
import type { FrameSpan } from '../model/frame.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { keepSpan } from '../video/span/keep-span.ts';
import type { KeepingStep } from '../video/span/keep-span.ts';
import { readClipIndex } from '../video/index/read-clip-index.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';

const KEEPING_LABELS: Readonly<Record<KeepingStep, string>> = {
  copy: say`Taking the swing out of the clip`,
  check: say`Checking the pictures`,
};

export interface ImportOrder {
  readonly swingId: string;
  /** The clip comes into a new swing of that swing's lesson, which is made with it. */
  readonly asNewSwing?: boolean;
  readonly view: View;
  readonly path: string;
  /** `copied`: the book takes a copy. `linked`: the file stays where it is and must not be moved. */
  readonly stored: 'copied' | 'linked';
  /** The frames to keep; null or left out keeps all. What is kept of a clip is always a copy. */
  readonly span?: FrameSpan | null;
}

/**
 * Brings a clip into a swing: first all that can be wrong with it, then the copy, last one row in the book. An error, a
 * cancel or a kill on the way leaves the book as it was.
 *
 * The frame table comes from the file's own list and is there at once. It is held against a decode of the whole clip
 * afterwards, with the first pass over it (settle-clip.ts).
 *
 * Of a long clip only a span may be kept: a file of its own then, with the very pictures, from a key picture at or before
 * the span on; the original is only read. To the book that file is the clip, under the original's name.
 *
 * @throws AppError `bad-request` when the swing has a clip of that view or has this very clip, or a span shall be linked
 *   or lies outside of the clip; `format-refused` when the clip cannot be shortened; `no-such-record`, `cancelled`, and
 *   what reading a clip and storing a file may throw.
 */
export async function importClip(book: Book, order: ImportOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<Clip> {
  const { signal } = run;
  const path = resolve(order.path);
  const beside = book.openSwing(order.swingId);
  if (order.asNewSwing !== true) refuseSecondClip(beside, order.view);
  const span = order.span ?? null;
  if (span !== null && order.stored === 'linked')
    throw new AppError('bad-request', say`A part of a clip is always copied into the book. Keep all of it to link it.`);
  const refuseSame = async (file: string): Promise<void> => {
    if (order.asNewSwing !== true) await refuseSameFile(book, order.swingId, file, signal);
  };
  await refuseSame(path);
  if (span === null) return importFile(book, { ...order, path, originalName: basename(path), kept: null }, ffmpeg, run);

  return book.media.withWorkFolder(async (folder) => {
    run.report(say`Reading the clip`, 0, null);
    const index = await readClipIndex(path, { ffmpeg, signal, byTables: true });
    stopIfCancelled(signal);
    const out = join(folder, `part${extname(path).toLowerCase()}`);
    const onProgress = (step: KeepingStep, done: number, total: number) =>
      run.report(KEEPING_LABELS[step], done, total);
    const { first } = await keepSpan({ ffmpeg, path, index, ...span, out, signal, onProgress });
    await refuseSame(out);
    const kept = { first, of: index.frames.length };
    return importFile(book, { ...order, path: out, originalName: basename(path), kept }, ffmpeg, run);
  });
}

interface FileOrder extends Omit<ImportOrder, 'span'> {
  readonly originalName: string;
  readonly kept: KeptPart | null;
}

async function importFile(book: Book, order: FileOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<Clip> {
  const { signal } = run;
  const { view, path, originalName, kept } = order;
  run.report(say`Reading the table of frames`, 0, null);
  const index = await readClipIndex(path, { ffmpeg, signal, byTables: true });
  stopIfCancelled(signal);

  const label = order.stored === 'copied' ? say`Copying the clip` : say`Reading the clip`;
  const file = await storeClipFile(book, path, {
    how: order.stored,
    signal,
    onProgress: (done, total) => run.report(label, done, total),
  });
  // Nothing may come between the stored file and its row: from here on it is too late to cancel.
  return takeIntoUse(book, file, () =>
    book.database.write(() => {
      const swingId = order.asNewSwing === true ? addSwingBeside(book, order.swingId).id : order.swingId;
      return book.addClip({ swingId, view, originalName, file, index, kept });
    }),
  );
}

/** A new swing of a swing's lesson, named by its place. */
function addSwingBeside(book: Book, swingId: string): Swing {
  const lessonId = book.openSwing(swingId).lesson.id;
  const lessons = book.listStudents().flatMap((student) => student.lessons);
  const before = lessons.find(({ lesson }) => lesson.id === lessonId)?.swings.length ?? 0;
  return book.addSwing({ lessonId, label: say`Swing ${before + 1}` });
}

/** The book refuses it as well, but only after a long decode and a copy. */
function refuseSecondClip({ clips }: BookSwing, view: View): void {
  if (clips.some((clip) => clip.view === view))
    throw new AppError(
      'bad-request',
      say`This swing already has a clip of the view "${VIEW_LABELS[view]}". Remove that one, or use another swing.`,
    );
}

/** One camera cannot have stood in two places. Only a file of the same length is read to find out. */
async function refuseSameFile(book: Book, swingId: string, path: string, signal: AbortSignal): Promise<void> {
  const { bytes } = await requireFile(path);
  const alike = book.openSwing(swingId).clips.filter((clip) => clip.bytes === bytes);
  if (alike.length === 0) return;
  const { sha256 } = await hashFile(path, { signal });
  const same = alike.find((clip) => clip.sha256 === sha256);
  if (same !== undefined)
    throw new AppError(
      'bad-request',
      say`This clip is in this swing already, as "${VIEW_LABELS[same.view]}". Choose the clip of the other camera.`,
    );
}
