import type { Book } from '../core/book/book.ts';
import { clipPath } from '../core/book/media.ts';
import { requireFile } from '../core/files/find-file.ts';
import type { ClipIndex } from '../core/time/clip-index.ts';
import { knownSource } from '../core/video/index/clip-source.ts';
import type { ServedFacts } from './frames/contract.ts';

/**
 * What the frame server needs to know of a clip of the book, its file looked at now.
 *
 * @throws AppError `clip-moved`, `clip-changed`, `no-such-record`, and as `requireFile`.
 */
export async function servedFacts(book: Book, clipId: string): Promise<ServedFacts> {
  const index = book.clipIndex(clipId);
  const { sha256 } = book.findClip(clipId);
  return factsOf(await clipPath(book, clipId), index, sha256);
}

/** The same for a file that is no clip of the book yet; no copy is made of it. */
export function inspectedFacts(path: string, index: ClipIndex): Promise<ServedFacts> {
  return factsOf(path, index, null);
}

async function factsOf(path: string, index: ClipIndex, sha256: string | null): Promise<ServedFacts> {
  const { bytes, modifiedMs } = await requireFile(path);
  const source = knownSource(path, index, { bytes, modifiedMs });
  return { path, bytes, modifiedMs, index, source, sha256 };
}
