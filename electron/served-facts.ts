import type { Book } from '../core/book/book.ts';
import { clipPath } from '../core/book/media.ts';
import { requireFile } from '../core/files/find-file.ts';
import type { ClipIndex } from '../core/time/clip-index.ts';
import { readIndexedSource } from '../core/video/index/clip-source.ts';
import type { Ffmpeg } from '../core/video/process/find-ffmpeg.ts';
import type { ServedFacts } from './frames/contract.ts';

/**
 * What the frame server needs to know of a clip of the book, its file looked at now.
 *
 * @throws AppError `clip-moved`, `clip-changed`, `no-such-record`, and as `readIndexedSource`.
 */
export async function servedFacts(book: Book, clipId: string, ffmpeg: Ffmpeg): Promise<ServedFacts> {
  const index = book.clipIndex(clipId);
  const { sha256 } = book.findClip(clipId);
  return factsOf(await clipPath(book, clipId), index, sha256, ffmpeg);
}

/** The same for a file that is no clip of the book yet; no copy is made of it. */
export function inspectedFacts(path: string, index: ClipIndex, ffmpeg: Ffmpeg): Promise<ServedFacts> {
  return factsOf(path, index, null, ffmpeg);
}

async function factsOf(path: string, index: ClipIndex, sha256: string | null, ffmpeg: Ffmpeg): Promise<ServedFacts> {
  const { bytes, modifiedMs } = await requireFile(path);
  const source = await readIndexedSource(path, index, { ffmpeg });
  return { path, bytes, modifiedMs, index, source, sha256 };
}
