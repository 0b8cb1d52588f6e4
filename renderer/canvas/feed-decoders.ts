import type { PictureLayout } from '../../core/model/picture-layout.ts';
import { createPictureDecoder } from './decode-picture.ts';
import type { PictureDecoder } from './decode-picture.ts';

/** In place of a clip: pictures by themselves share a decoder, so that it stays when a clip is left. */
export const BY_ITSELF = Symbol('by itself');

/** A decoder for each clip that is moved through, and one for all pictures by themselves. */
export interface FeedDecoders {
  /** As `PictureDecoder.decode`. */
  decode(of: string | typeof BY_ITSELF, layout: PictureLayout, data: Uint8Array): Promise<ImageBitmap>;
  /** The clip is not looked at any more. */
  leave(clip: string): void;
}

/** How long after its last picture the decoder of pictures by themselves is given back, ms. */
const IDLE_MS = 5000;

export function createFeedDecoders(): FeedDecoders {
  const decoders = new Map<string | typeof BY_ITSELF, PictureDecoder>();
  let resting: ReturnType<typeof setTimeout> | null = null;

  function giveBack(of: string | typeof BY_ITSELF): void {
    decoders.get(of)?.rest();
    decoders.delete(of);
  }

  return {
    decode(of, layout, data) {
      const decoder = decoders.get(of) ?? createPictureDecoder();
      decoders.set(of, decoder);
      if (of === BY_ITSELF) {
        if (resting !== null) clearTimeout(resting);
        resting = setTimeout(() => giveBack(of), IDLE_MS);
      }
      return decoder.decode(layout, data);
    },
    leave: giveBack,
  };
}
