import { randomUUID } from 'node:crypto';
import { open, rename, rm, stat } from 'node:fs/promises';
import { basename, extname, join, resolve } from 'node:path';
import { say } from '../model/say.ts';
import { writingTrouble } from '../files/file-trouble.ts';
import { contentMark } from '../files/file-identity.ts';
import { findFile, isNoFile, requireFile } from '../files/find-file.ts';
import { hashFile } from '../files/hash-file.ts';
import type { HashedFile } from '../files/hash-file.ts';
import { syncFolder } from '../files/write-whole-file.ts';
import type { Clip } from '../model/book.ts';
import { AppError } from '../model/errors.ts';
import { arrivalOf } from './arrivals.ts';
import type { Book } from './book.ts';
import { requireClip } from './clips.ts';
import { INCOMING_SUFFIX } from './media-folder.ts';
import type { StoredClipFile } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { CLIP_FILE_COLUMNS, clipFileRow } from './rows.ts';
import type { ClipFile } from './rows.ts';

export type { StoredClipFile } from './media-folder.ts';

export interface StoreOptions {
  /** `copied`: the book takes a copy. `linked`: the file is only read, and must stay where it is. */
  readonly how: 'copied' | 'linked';
  readonly signal?: AbortSignal | undefined;
  /** Bytes; `done` never falls. */
  readonly onProgress?: ((done: number, total: number) => void) | undefined;
}

/**
 * Brings the bytes of a clip under the book's care, before `addClip`. The same content is kept once. After a cancel, an
 * error or a kill there is no half file: a copy gets its name only when all of it is on the disk.
 *
 * @throws AppError `file-not-found`, `file-unreadable`, `file-empty`, `clip-changed` (still being written), `cancelled`,
 *   `disk-full`, `not-writable`.
 */
export async function storeClipFile(book: Book, path: string, options: StoreOptions): Promise<StoredClipFile> {
  const source = resolve(path);
  if (options.how === 'linked') return { ...(await hashFile(source, options)), path: source, how: 'linked' };

  const incoming = join(book.media.path, `${randomUUID()}${INCOMING_SUFFIX}`);
  try {
    const copied = await copyAndHash(source, incoming, options);
    const known = book.media.find(copied.sha256, copied.bytes);
    const target = known ?? join(book.media.path, `${copied.sha256}${extensionOf(source)}`);
    if (known === null) {
      await rename(incoming, target);
      await syncFolder(book.media.path);
    }
    return { ...copied, path: target, how: 'copied', modifiedMs: (await stat(target)).mtimeMs };
  } catch (error) {
    throw writingTrouble(error, join(book.media.path, basename(source)));
  } finally {
    await rm(incoming, { force: true });
  }
}

/**
 * Runs what writes the row of a stored file and returns its answer. When that fails, a copy that no clip uses is
 * deleted, so that nothing lies in the media folder that the book does not know.
 */
export function takeIntoUse<Result>(book: Book, file: StoredClipFile, writeRow: () => Result): Result {
  try {
    return writeRow();
  } catch (cause) {
    try {
      book.media.discard(file);
    } catch {
      // The first trouble is the one to tell; it is often the same one (a closed book, a full disk).
    }
    throw cause;
  }
}

async function copyAndHash(source: string, target: string, options: StoreOptions): Promise<HashedFile> {
  const file = await open(target, 'wx');
  try {
    const { signal, onProgress } = options;
    const copied = await hashFile(source, { signal, onProgress, onChunk: (chunk) => file.writeFile(chunk) });
    await file.sync();
    return copied;
  } finally {
    await file.close();
  }
}

/** Kept for people who look into the folder, and for ffmpeg's guess of the format. */
function extensionOf(path: string): string {
  const extension = extname(path).toLowerCase();
  return /^\.[a-z0-9]{1,8}$/.test(extension) ? extension : '.clip';
}

/**
 * Where the bytes of a clip are now. Size and time of change are looked at each time; only when these differ is a linked
 * file read again. For a part that is being taken out of its file it waits until that is done.
 *
 * @throws AppError `clip-moved` when the file is gone, `clip-changed` when it has other bytes. `clip-coming` when its part
 *   is still to be taken, or has other numbers since it was. `file-unreadable` when its disk does not answer, `no-such-record`.
 */
export async function clipPath(book: Book, clipId: string): Promise<string> {
  const clip = clipFile(book, clipId);
  if (!clip.coming) return presentPath(book, clipId, clip, async (path) => (await hashFile(path)).sha256);
  // Whoever waits may hold frames by the numbers of before.
  if ((await arrivalOf(book.database, clipId)) !== clipId) throw stillComing(clip);
  return clipPath(book, clipId);
}

/** Where the whole file is that the part of a clip is still to be taken from. @throws AppError as `clipPath`. */
export async function wholePath(book: Book, clipId: string): Promise<string> {
  const clip = clipFile(book, clipId);
  if (!clip.coming) throw new Error('its part was taken');
  return presentPath(book, clipId, clip, contentMark);
}

async function presentPath(
  book: Book,
  clipId: string,
  clip: ClipFile,
  contentOf: (path: string) => Promise<string>,
): Promise<string> {
  const path = clip.stored === 'copied' ? join(book.media.path, clip.file) : clip.file;
  const found = await findFile(path).catch((error: unknown) => {
    if (isNoFile(error)) return null;
    throw error;
  });
  if (found === null) throw movedClip(clip, path);
  if (found.bytes !== clip.bytes) throw changedClip(clip, path);
  if (found.modifiedMs === clip.modifiedMs) return path;
  if ((await contentOf(path)) !== clip.sha256) throw changedClip(clip, path);
  book.database.run('UPDATE clip SET modified_ms = ? WHERE id = ?', found.modifiedMs, clipId);
  return path;
}

/**
 * Tells the book where the file of a clip is now: a linked clip is linked there, a lost copy is copied anew. Only a file
 * with the very same bytes is taken, so that every mark stays on its frame.
 *
 * @throws AppError `clip-changed` when it is another file, and as `storeClipFile`.
 */
export async function relinkClip(
  book: Book,
  clipId: string,
  path: string,
  options: Omit<StoreOptions, 'how'> = {},
): Promise<Clip> {
  const clip = clipFile(book, clipId);
  if (clip.coming) return relinkWhole(book, clipId, clip, resolve(path));
  const { sha256 } = await hashFile(resolve(path), { signal: options.signal });
  if (sha256 !== clip.sha256 && clip.isPart)
    throw new AppError(
      'clip-changed',
      say`Of "${clip.originalName}" the book kept only a part, which cannot be had from ${path} again. Put its file ${clip.file} back into the folder ${book.media.path}, or remove the clip and add that part anew.`,
      { detail: { path, clipId } },
    );
  if (sha256 !== clip.sha256) throw otherClip(clip, path);
  const file = await storeClipFile(book, path, { ...options, how: clip.stored });
  return takeIntoUse(book, file, () =>
    book.database.write(() => {
      requireClip(book.database, clipId);
      const sql = 'UPDATE clip SET file = ?, modified_ms = ? WHERE id = ?';
      book.database.run(sql, book.media.keep(file), file.modifiedMs, clipId);
      return requireClip(book.database, clipId);
    }),
  );
}

/** The whole of which a part is still to be taken is looked for by its size and its two ends. */
async function relinkWhole(book: Book, clipId: string, clip: ClipFile, path: string): Promise<Clip> {
  const { bytes, modifiedMs } = await requireFile(path);
  if (bytes !== clip.bytes || (await contentMark(path)) !== clip.sha256) throw otherClip(clip, path);
  book.database.run('UPDATE clip SET file = ?, modified_ms = ? WHERE id = ? AND coming = 1', path, modifiedMs, clipId);
  return requireClip(book.database, clipId);
}

function clipFile(book: Book, clipId: string): ClipFile {
  const clip = book.database.one(clipFileRow, `SELECT ${CLIP_FILE_COLUMNS} FROM clip WHERE id = ?`, clipId);
  if (clip === null) throw noSuch('clip', clipId);
  // The name comes from a file that others can write: it must not lead out of the media folder.
  if (clip.stored === 'copied' && clip.file !== basename(clip.file))
    throw new AppError('book-damaged', say`The book names a clip file outside its media folder: ${clip.file}.`);
  return clip;
}

function movedClip(clip: ClipFile, path: string): AppError {
  return new AppError(
    'clip-moved',
    say`The clip "${clip.originalName}" is not at ${path} any more. Put it back there, or show Baybook where it is now.`,
    { detail: { path } },
  );
}

function changedClip(clip: ClipFile, path: string): AppError {
  return new AppError(
    'clip-changed',
    say`The file ${path} is not the one that was added as "${clip.originalName}". Put that one back; the marks were kept.`,
    { detail: { path } },
  );
}

function otherClip(clip: ClipFile, path: string): AppError {
  return new AppError(
    'clip-changed',
    say`${path} is not the clip "${clip.originalName}": its content differs. Choose the file that was added then.`,
    { detail: { path } },
  );
}

function stillComing(clip: ClipFile): AppError {
  return new AppError(
    'clip-coming',
    say`The swing of "${clip.originalName}" is still being taken out of ${clip.file}. Try again when that is done.`,
  );
}
