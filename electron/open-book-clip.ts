import type { Book } from '../core/book/book.ts';
import { clipPath } from '../core/book/media.ts';
import { AppError } from '../core/model/errors.ts';
import type { Ffmpeg } from '../core/video/find-ffmpeg.ts';
import { openFrameWindow } from '../core/video/frame-window.ts';
import { readStill } from '../core/video/read-still.ts';
import type { OpenClip } from './open-clips.ts';

/** Opens a clip of the book for looking at, by the frame table that was made at its import. */
export async function openBookClip(book: Book, clipId: string, findFfmpeg: () => Promise<Ffmpeg>): Promise<OpenClip> {
  const index = book.clipIndex(clipId);
  const path = await clipPath(book, clipId);
  const ffmpeg = await findFfmpeg();
  const closing = new AbortController();
  const frames = openFrameWindow(path, index, { ffmpeg, kind: 'scrub' });

  return {
    async exact(frameIndex) {
      // Asked anew each time: a linked file may have been taken away or changed since.
      const now = await clipPath(book, clipId);
      const still = await readStill(now, index, frameIndex, { ffmpeg, as: 'png', signal: closing.signal });
      if (still === null)
        throw new AppError(
          'no-such-frame',
          `There is no frame ${frameIndex}; the clip has frames 0 to ${index.frames.length - 1}.`,
        );
      return still.data;
    },
    quick(frameIndex) {
      return this.exact(frameIndex);
    },
    async close() {
      closing.abort();
      await frames.close();
    },
  };
}
