import sharp from 'sharp';
import type { Raster } from './raster.ts';

/** Best first. Below the last one, skin and grass show blocks, so a smaller picture is better than a worse one. */
const QUALITIES = [93, 89, 85, 80, 75, 70, 64] as const;

/**
 * Encodes as JPEG at the best quality that stays within `mostBytes`, or null when none does. Colour is stored for
 * every pixel (4:4:4): the canvas's own encoder halves it, which smears a thin orange line on grass into brown. sRGB, said
 * so by an embedded profile.
 */
export async function encodeJpeg(raster: Raster, mostBytes: number): Promise<Uint8Array | null> {
  let best: Uint8Array | null = null;
  let low = 0;
  let high = QUALITIES.length - 1;
  while (low <= high) {
    const middle = Math.floor((low + high) / 2);
    const bytes = await jpegOf(raster, QUALITIES[middle] ?? 64);
    if (bytes.length <= mostBytes) {
      best = bytes;
      high = middle - 1;
    } else low = middle + 1;
  }
  return best;
}

async function jpegOf({ width, height, rgba }: Raster, quality: number): Promise<Uint8Array> {
  return await sharp(rgba, { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .withIccProfile('srgb')
    .jpeg({ quality, chromaSubsampling: '4:4:4', mozjpeg: true })
    .toBuffer();
}
