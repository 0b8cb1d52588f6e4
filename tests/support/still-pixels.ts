import sharp from 'sharp';
import type { Pixels } from './coded-picture.ts';

/** The pixels of a PNG or JPEG, decoded by a program other than the one that made it. */
export async function pixelsOf(file: Uint8Array): Promise<Pixels> {
  const { data, info } = await sharp(file).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data, step: 4 };
}

/** [R, G, B] of the pixel at a place given in shares of width and height. */
export function colourAt({ width, height, data, step }: Pixels, across: number, down: number): readonly number[] {
  const at = (Math.floor(down * height) * width + Math.floor(across * width)) * step;
  return [...data.subarray(at, at + 3)];
}
