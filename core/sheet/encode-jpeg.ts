import sharp from 'sharp';
import type { Raster } from './raster.ts';

/** Best first. Below the last one, skin and grass show blocks, so a smaller picture is better than a worse one. */
const LOWEST = 64;
const QUALITIES = [93, 89, 85, 80, 75, 70, LOWEST] as const;

/**
 * Encodes as JPEG at the best quality that stays within `mostBytes`; when none does, at the lowest, which is then
 * larger. Colour is stored for every pixel (4:4:4): the canvas's own encoder halves it, which smears a thin orange line on grass into brown. sRGB, said
 * so by an embedded profile.
 */
export async function encodeJpeg(raster: Raster, mostBytes: number): Promise<Uint8Array> {
  let best: Uint8Array | null = null;
  let low = 0;
  let high = QUALITIES.length - 1;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    const bytes = await jpegOf(raster, QUALITIES[middle] ?? LOWEST);
    if (bytes.length <= mostBytes) {
      best = bytes;
      high = middle;
    } else low = middle + 1;
  }
  return high < QUALITIES.length - 1 && best !== null ? best : await jpegOf(raster, LOWEST);
}

async function jpegOf({ width, height, rgba }: Raster, quality: number): Promise<Uint8Array> {
  return await sharp(rgba, { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .withIccProfile('srgb')
    .jpeg({ quality, chromaSubsampling: '4:4:4', mozjpeg: true })
    .toBuffer();
}
