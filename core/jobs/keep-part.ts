import { stat } from 'node:fs/promises';
import { basename, extname, join, resolve } from 'node:path';
import type { Book } from '../book/book.ts';
import { storeClipFile, takeIntoUse, wholePath } from '../book/media.ts';
import type { TakenPart } from '../book/take-part.ts';
import { contentMark } from '../files/file-identity.ts';
import type { Clip, PartKept } from '../model/book.ts';
import { AppError } from '../model/errors.ts';
import type { FrameSpan } from '../model/frame.ts';
import { isolated } from '../model/isolated.ts';
import { say } from '../model/say.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { findPart, keepSpan } from '../video/span/keep-span.ts';
import type { KeepingStep } from '../video/span/keep-span.ts';
import { readClipIndex } from '../video/index/read-clip-index.ts';
import { readRecentIndex } from '../video/index/recent-index.ts';
import { refuseSameFile, refuseSecondClip, swingFor } from './import-clip.ts';
import type { ImportOrder } from './import-clip.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';

const KEEPING_LABELS: Readonly<Record<KeepingStep, string>> = {
  copy: say`Taking the swing out of the clip`,
  check: say`Checking the pictures`,
};

/** A clip that is coming, as whoever asks knows it. */
export interface PartToKeep {
  readonly id: string;
  /** The frame of the whole that is its frame 0. */
  readonly first: number;
}

export type PartOrder = Omit<ImportOrder, 'stored'> & { readonly span: FrameSpan };

/**
 * Puts a part of a clip into a swing before it is cut: from then on it can be looked at and marked, out of the file that the
 * coach chose, which is only read. `keepPart` follows. A kill in between leaves the clip coming, with all its marks.
 *
 * @throws AppError as `importClip` before it copies; `bad-request` when the span lies outside of the clip, `format-refused`
 *   when the clip cannot be shortened.
 */
export async function addPart(book: Book, order: PartOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<Clip> {
  const { view, span } = order;
  const { signal } = run;
  const path = resolve(order.path);
  if (order.asNewSwing !== true) {
    refuseSecondClip(book.openSwing(order.swingId), view);
    await refuseSameFile(book, order.swingId, path, signal);
  }
  run.report(say`Reading the clip`, 0, null);
  const index = await readRecentIndex(path, { ffmpeg, signal });
  const { found, part } = await findPart({ ffmpeg, path, index, ...span, signal });
  const { size: bytes, mtimeMs: modifiedMs } = await stat(path);
  const file = { sha256: await contentMark(path), bytes, modifiedMs, path, how: 'linked' } as const;
  stopIfCancelled(signal);
  const kept = { first: found.plan.first, of: index.frames.length };
  return book.database.write(() =>
    book.addClip({
      ...{ swingId: swingFor(book, order), view, originalName: basename(path), file, index: part, kept },
      coming: true,
    }),
  );
}

/**
 * Takes the part of a clip that is coming out of its file, checks it and puts it in the place of that file: a file of its
 * own with the very pictures, from a key picture at or before the span on (`keepSpan`). One that has to begin earlier moves
 * the numbers, which is told against `order.first`; where the clip cannot be cut after all, the whole of it is copied. What is named and marked stays on its
 * pictures. After any error the clip is as it was, and this can be tried again.
 *
 * @throws AppError `bad-request` when the swing has that very part, `clip-moved`, `clip-changed`, `no-such-record`,
 *   `cancelled`, `disk-full`, and what reading a clip and storing a file may throw.
 */
export async function keepPart(book: Book, order: PartToKeep, ffmpeg: Ffmpeg, run: JobContext): Promise<PartKept> {
  const id = book.presentClip(order.id);
  const { coming, kept, frameCount, swingId } = book.findClip(id);
  if (coming !== true || kept === null) return outcome(book, order, id);
  const { signal } = run;
  const path = await wholePath(book, id);
  const index = await readRecentIndex(path, { ffmpeg, signal });
  if (index.frames.length !== kept.of)
    throw new AppError('clip-changed', say`${path} is not the clip it was; add it again.`, { detail: { path } });
  const taken = await book.media.withWorkFolder(async (folder) => {
    const out = join(folder, `part${extname(path).toLowerCase()}`);
    const onProgress = (step: KeepingStep, done: number, total: number) =>
      run.report(KEEPING_LABELS[step], done, total);
    const span = { from: kept.first, to: kept.first + frameCount - 1 };
    try {
      const { first } = await keepSpan({ ffmpeg, path, index, ...span, out, signal, onProgress });
      await refuseSameFile(book, swingId, out, signal);
      const part = { index: await readClipIndex(out, { ffmpeg, signal, byTables: true }), kept: { ...kept, first } };
      return await take(book, id, out, part, run);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'format-refused') throw error;
      return take(book, id, path, { index, kept: null }, run);
    }
  });
  return outcome(book, order, taken);
}

function outcome(book: Book, { first }: PartToKeep, id: string): PartKept {
  const { kept } = book.findClip(id);
  return { id, shift: first - (kept?.first ?? 0), whole: kept === null };
}

/** Stores the file and puts it in the place of the one that was read till now. */
async function take(
  book: Book,
  clipId: string,
  path: string,
  part: { readonly index: ClipIndex; readonly kept: TakenPart['kept'] },
  { signal, report }: JobContext,
): Promise<string> {
  const file = await storeClipFile(book, path, {
    how: 'copied',
    signal,
    onProgress: (done, total) => report(say`Copying the clip`, done, total),
  });
  return takeIntoUse(book, file, () => book.takePart(clipId, { ...part, file }));
}

/** Why a part is not kept yet, and what to do. */
export function notKeptYet(error: AppError, { originalName }: Clip): AppError {
  // These say where its file must lie.
  if (error.code === 'clip-moved' || error.code === 'clip-changed') return error;
  return new AppError(
    error.code,
    say`${error.message} ${isolated(originalName)} is in the lesson, with all that you mark on it, and is read from where it lies. Leave it there. Baybook tries again when you open the swing.`,
    { cause: error, detail: error.detail },
  );
}
