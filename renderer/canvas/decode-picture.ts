import type { PictureLayout } from '../../core/model/picture-layout.ts';
import { convertSamples } from './convert-samples.ts';

/** Turns the bytes of a picture, as the frame server sends them, into one that a canvas paints at once. */
export interface PictureDecoder {
  /** The result is the caller's to close. Rejects when the bytes are no picture. */
  decode(layout: PictureLayout, data: Uint8Array): Promise<ImageBitmap>;
  /** Gives the decoder back; it takes up again with the next picture. */
  rest(): void;
}

/**
 * Constrained baseline, level 4: what proxy pictures are coded as. By software: a picture that is decoded by itself takes
 * it some milliseconds, while hardware decoders may hold a picture back until more follow.
 */
const PROXY_CONFIG: VideoDecoderConfig = {
  codec: 'avc1.42c028',
  optimizeForLatency: true,
  hardwareAcceleration: 'prefer-software',
};

interface Pending {
  readonly resolve: (picture: ImageBitmap) => void;
  readonly reject: (error: unknown) => void;
}

export function createPictureDecoder(): PictureDecoder {
  let decoder: VideoDecoder | null = null;
  /** By the time stamp under which a picture went in, which is only a number to find it by. */
  const pending = new Map<number, Pending>();
  let last = 0;

  function open(): VideoDecoder {
    const opened = new VideoDecoder({
      output(frame) {
        const waiting = pending.get(frame.timestamp);
        pending.delete(frame.timestamp);
        if (waiting === undefined) frame.close();
        else ownBitmap(frame).then(waiting.resolve, waiting.reject);
      },
      error(cause) {
        if (decoder === opened) decoder = null;
        for (const waiting of pending.values()) waiting.reject(cause);
        pending.clear();
      },
    });
    opened.configure(PROXY_CONFIG);
    return opened;
  }

  return {
    decode(layout, data) {
      if (layout.kind === 'i420') return convertSamples(layout, data);
      if (layout.kind === 'rgba') return bitmapOf(layout, data);
      decoder ??= open();
      const timestamp = (last += 1);
      const decoded = new Promise<ImageBitmap>((resolve, reject) => pending.set(timestamp, { resolve, reject }));
      // Every picture is a key picture.
      decoder.decode(new EncodedVideoChunk({ type: 'key', timestamp, data }));
      return decoded;
    },
    rest() {
      if (decoder !== null && decoder.state !== 'closed') decoder.close();
      decoder = null;
      for (const waiting of pending.values()) waiting.reject(new DOMException('closed', 'AbortError'));
      pending.clear();
    },
  };
}

/**
 * A copy of the frame's picture; the frame itself, which holds the decoder's memory, is given back. By way of its pixels:
 * a bitmap made of the frame directly takes as long, and leaves megabytes each in a store that Chromium empties only when
 * memory is short (500 MB after a hundred frames).
 */
async function ownBitmap(frame: VideoFrame): Promise<ImageBitmap> {
  const { width, height } = frame.visibleRect ?? { width: frame.codedWidth, height: frame.codedHeight };
  const image = lentPixels(width, height);
  try {
    await frame.copyTo(image.data, RGBA);
    return await createImageBitmap(image, AS_IT_STANDS);
  } finally {
    frame.close();
    lent.push(image);
    if (lent.length > MOST_LENT) lent.shift();
  }
}

/** Room for the pixels of pictures on their way: new megabytes for each keep the garbage collector at work. */
const lent: ImageData[] = [];
const MOST_LENT = 4;

/** Of that size, not cleared; the borrower gives it back. */
function lentPixels(width: number, height: number): ImageData {
  const place = lent.findIndex((each) => each.width === width && each.height === height);
  const [image] = place < 0 ? [] : lent.splice(place, 1);
  return image ?? new ImageData(width, height);
}

/** The library's types do not know yet that a frame can be converted (WebCodecs, VideoFrameCopyToOptions.format). */
const RGBA: VideoFrameCopyToOptions & { readonly format: 'RGBA' } = { format: 'RGBA' };
const AS_IT_STANDS = { colorSpaceConversion: 'none' } as const;

function bitmapOf({ width, height }: PictureLayout, data: Uint8Array): Promise<ImageBitmap> {
  const pixels = new Uint8ClampedArray(data.buffer as ArrayBuffer, data.byteOffset, data.byteLength);
  return createImageBitmap(new ImageData(pixels, width, height), AS_IT_STANDS);
}
