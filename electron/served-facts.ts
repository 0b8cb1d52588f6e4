import type { Book } from '../core/book/book.ts';
import { clipPath, wholePath } from '../core/book/media.ts';
import { say } from '../core/model/say.ts';
import { AppError } from '../core/model/errors.ts';
import { requireFile } from '../core/files/find-file.ts';
import type { ClipIndex } from '../core/time/clip-index.ts';
import { knownSource } from '../core/video/index/clip-source.ts';
import { readRecentIndex } from '../core/video/index/recent-index.ts';
import type { Ffmpeg } from '../core/video/process/find-ffmpeg.ts';
import type { ServedFacts } from './frames/contract.ts';

/**
 * What the frame server needs to know of a clip of the book, its file looked at now. Pictures of a part that is still coming
 * are those of the whole clip; no copy is made of it.
 *
 * @throws AppError `clip-moved`, `clip-changed`, `no-such-record`, and as `requireFile` and `readClipIndex`.
 */
export async function servedFacts(book: Book, clipId: string, ffmpeg: Ffmpeg): Promise<ServedFacts> {
  const { coming, kept, sha256 } = book.findClip(clipId);
  if (coming !== true || kept === null) return factsOf(await clipPath(book, clipId), book.clipIndex(clipId), sha256, 0);
  const path = await wholePath(book, clipId);
  const index = await readRecentIndex(path, { ffmpeg });
  // Its part was taken meanwhile.
  if (book.findClip(clipId).coming !== true) return servedFacts(book, clipId, ffmpeg);
  if (index.frames.length !== kept.of)
    throw new AppError('clip-changed', say`${path} is not the clip it was; add it again.`, { detail: { path } });
  return factsOf(path, index, null, kept.first);
}

/** The same for a file that is no clip of the book yet; no copy is made of it. */
export function inspectedFacts(path: string, index: ClipIndex): Promise<ServedFacts> {
  return factsOf(path, index, null, 0);
}

async function factsOf(path: string, index: ClipIndex, sha256: string | null, first: number): Promise<ServedFacts> {
  const { bytes, modifiedMs } = await requireFile(path);
  const source = knownSource(path, index, { bytes, modifiedMs });
  return { path, bytes, modifiedMs, index, first, source, sha256 };
}
