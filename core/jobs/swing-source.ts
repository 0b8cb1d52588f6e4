import { say } from '../model/say.ts';
import type { Book } from '../book/book.ts';
import { clipPath } from '../book/media.ts';
import { AppError } from '../model/errors.ts';
import { bareSwingOf, type MarkedSwing } from '../model/swing.ts';
import { VIEW_LABELS, type View } from '../model/words.ts';
import { clipFileOf } from '../swing-file/clip-file-of.ts';
import type { ReadSwing } from '../swing-file/read-swing-file.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { readVerifiedIndex } from './verified-index.ts';

/** A swing with the way to the pictures of its clips. */
export interface SwingSource {
  readonly swing: MarkedSwing;
  /**
   * The file of the clip of a view, made sure to be the one that was marked, and its frame table.
   * @throws AppError `bad-request` when there is no clip of that view, `clip-moved`, `clip-changed`.
   */
  clipOf(view: View, signal: AbortSignal): Promise<{ readonly path: string; readonly index: ClipIndex }>;
}

/** A swing of the book, as it is now. @throws AppError `no-such-record`. */
export function swingOfBook(book: Book, swingId: string): SwingSource {
  const swing = book.openSwing(swingId);
  return {
    swing: bareSwingOf(swing),
    async clipOf(view) {
      const clip = swing.clips.find((each) => each.view === view) ?? noClip(view);
      return { path: await clipPath(book, clip.id), index: book.clipIndex(clip.id) };
    },
  };
}

/** A swing of a swing file, as `readSwingFile` gave it. Each clip is hashed, and decoded for its frame table unless that is known. */
export function swingOfFile({ swing, folder }: ReadSwing, ffmpeg: Ffmpeg): SwingSource {
  return {
    swing: bareSwingOf(swing),
    async clipOf(view, signal) {
      const clip = swing.clips.find((each) => each.view === view) ?? noClip(view);
      const path = await clipFileOf(clip, folder, { signal });
      return { path, index: await readVerifiedIndex(path, { ffmpeg, signal }) };
    },
  };
}

function noClip(view: View): never {
  throw new AppError('bad-request', say`The swing has no clip of the view "${VIEW_LABELS[view]}".`);
}
