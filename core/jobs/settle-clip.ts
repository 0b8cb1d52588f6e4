import type { Book } from '../book/book.ts';
import { clipPath } from '../book/media.ts';
import { damagedCount } from '../time/damaged-spans.ts';
import { settleIndex } from '../time/settle-index.ts';
import type { DecodePass } from '../time/settle-index.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { findDamage } from '../video/index/find-damage.ts';

/** What came of it: whether any frame has another number now, and how many frames are damaged. */
export interface Settled {
  readonly changed: boolean;
  readonly damaged: number;
}

/**
 * Holds a clip's frame table against what a decode of the whole clip delivered, and stores the outcome; a clip that was
 * settled before is left alone (null). Only where ffmpeg reported damage is the clip decoded once more, to find the
 * frames that it touches.
 *
 * @throws AppError `no-such-record`, `clip-moved`, `clip-changed`, `cancelled` and as `findDamage`; nothing is stored then.
 */
export async function settleClip(
  book: Book,
  clipId: string,
  pass: DecodePass,
  options: { readonly ffmpeg: Ffmpeg; readonly signal?: AbortSignal },
): Promise<Settled | null> {
  if (book.isSettled(clipId)) return null;
  const spoilt = pass.errors ? await findDamage(await clipPath(book, clipId), options) : [];
  const index = settleIndex(book.clipIndex(clipId), pass, spoilt);
  const changed = book.settleClip(clipId, index);
  return { changed, damaged: damagedCount(book.clipIndex(clipId)) };
}
