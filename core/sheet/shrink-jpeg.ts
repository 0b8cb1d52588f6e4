import { createCanvas, loadImage } from '@napi-rs/canvas';
import { encodeJpeg } from './encode-jpeg.ts';

export interface Jpeg {
  readonly bytes: Uint8Array;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}

/** Narrower than this nothing on a still can be read, px. */
const NARROWEST = 320;

/**
 * The picture within `mostBytes`: at lower quality first, then smaller. Where even the narrowest is larger, that one.
 * A picture that is small enough comes back as it is.
 */
export async function shrinkJpeg(given: Jpeg, mostBytes: number): Promise<Jpeg> {
  if (given.bytes.length <= mostBytes) return given;
  const image = await loadImage(given.bytes);
  // Lower quality saves three parts of four at most: what is larger still is narrowed at once.
  let width = Math.max(
    NARROWEST,
    Math.floor(given.width * Math.min(1, Math.sqrt((4 * mostBytes) / given.bytes.length))),
  );
  if (given.width < width) ({ width } = given);
  for (;;) {
    const height = Math.max(1, Math.round((given.height * width) / given.width));
    const canvas = createCanvas(width, height);
    const ctx = canvas.getContext('2d');
    ctx.imageSmoothingEnabled = true;
    ctx.imageSmoothingQuality = 'high';
    ctx.drawImage(image, 0, 0, width, height);
    const { data } = ctx.getImageData(0, 0, width, height);
    const rgba = new Uint8Array(data.buffer, data.byteOffset, data.length);
    const bytes = await encodeJpeg({ width, height, rgba }, mostBytes);
    if (bytes.length <= mostBytes || width <= NARROWEST) return { bytes, width, height };
    // Bytes grow about as the area does; a little less than that, so that the next width usually fits.
    width = Math.max(NARROWEST, Math.floor(width * Math.min(0.95, 0.97 * Math.sqrt(mostBytes / bytes.length))));
  }
}
