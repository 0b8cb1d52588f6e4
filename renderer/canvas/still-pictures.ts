import type { PictureQuality } from '../../core/model/picture-layout.ts';
import { FETCHED_AHEAD } from '../../core/model/read-ahead.ts';
import type { FrameFeed } from './frame-feed.ts';
import { createPictureCache } from './picture-cache.ts';

/** Pictures are kept this wide at most, in pixels: enough for the cropped cells of the sheet. */
const LARGEST_WIDTH = 1280;
/** Then and now, two views, eight checkpoints are 32 pictures; of 1280 x 720 this is 48. */
const KEPT_BYTES = 48 * 1280 * 720 * 4;

/** A frame of a clip, and whether the small picture of it is enough. */
export interface StillFrame {
  readonly clip: string;
  readonly frame: number;
  readonly quality: PictureQuality;
}

/** A picture that is lent: it is closed when it is old, and has then no width. */
export interface ShownStill {
  readonly of: Pick<StillFrame, 'clip' | 'frame'>;
  readonly picture: ImageBitmap;
  readonly quality: PictureQuality;
}

export interface StillPictures {
  /**
   * Brings the picture of a frame that lies still: the small one at once, the sharp one in its place once the frame rests.
   * `failed` is called when there is none. Returns how to stop.
   */
  follow(wanted: StillFrame, show: (still: ShownStill) => void, failed: (error: unknown) => void): () => void;
  /** Forgets the pictures of a clip whose frames have other numbers now; what is drawn of them stays until drawn anew. */
  forget(clip: string): void;
  /** Forgets all of them: none is shown any more, but where it was drawn. */
  clear(): void;
}

/** Pictures of cells and thumbnails by way of the frame server, kept for the next time they are shown. */
export function createStillPictures(feed: Pick<FrameFeed, 'single' | 'onStartAgain'>): StillPictures {
  const kept = createPictureCache<string, ShownStill>({
    bytes: KEPT_BYTES,
    pictureOf: ({ picture }) => picture,
    drop: ({ picture }) => picture.close(),
  });

  async function bring(wanted: StillFrame, quality: PictureQuality, signal: AbortSignal): Promise<ShownStill> {
    const { clip, frame } = wanted;
    const came = await feed.single(clip, frame, quality, signal);
    const picture = came.width > LARGEST_WIDTH ? await narrowed(came) : came;
    const still = { of: { clip, frame }, picture, quality };
    kept.set(keyOf(clip, frame), still);
    return still;
  }

  return {
    follow(wanted, show, failed) {
      let control = new AbortController();
      const load = async (signal: AbortSignal): Promise<void> => {
        let still = kept.get(keyOf(wanted.clip, wanted.frame)) ?? null;
        // One that cannot be made: the sharp picture, where it is wanted, says why.
        still ??= await bring(wanted, 'proxy', signal).catch((error: unknown) => {
          if (signal.aborted || wanted.quality === 'proxy') throw error;
          return null;
        });
        if (signal.aborted) return;
        if (still !== null) show(still);
        if (wanted.quality === 'proxy' || still?.quality === 'sharp') return;
        await new Promise((resolve) => setTimeout(resolve, FETCHED_AHEAD.sharp.restMs));
        if (signal.aborted) return;
        try {
          const sharp = await bring(wanted, 'sharp', signal);
          if (!signal.aborted) show(sharp);
        } catch (error) {
          // The small picture is the same frame; the bench says what is wrong with the clip.
          if (still === null) throw error;
        }
      };
      const begin = (): void => {
        const { signal } = control;
        load(signal).catch((error: unknown) => {
          if (!signal.aborted) failed(error);
        });
      };
      begin();
      const stopWaiting = feed.onStartAgain(() => {
        control.abort();
        control = new AbortController();
        begin();
      });
      return () => {
        stopWaiting();
        control.abort();
      };
    },
    forget(clip) {
      for (const [key, still] of kept.entries()) if (still.of.clip === clip) kept.delete(key);
    },
    clear: () => kept.clear(),
  };
}

async function narrowed(picture: ImageBitmap): Promise<ImageBitmap> {
  // Colours are taken as they stand: both qualities come from the same conversion.
  const size = { resizeWidth: LARGEST_WIDTH, resizeQuality: 'high', colorSpaceConversion: 'none' } as const;
  try {
    return await createImageBitmap(picture, size);
  } finally {
    picture.close();
  }
}

function keyOf(clip: string, frame: number): string {
  return `${clip}/${String(frame)}`;
}
