import { loadImage } from '@napi-rs/canvas';
import type { Canvas, Image, SKRSContext2D } from '@napi-rs/canvas';
import sharp from 'sharp';
import type { DrawPicture } from '../painting/paint-sheet.ts';

interface PictureSize {
  /** Pixels, >= 1. */
  readonly width: number;
  readonly height: number;
}

/** A decoded frame: as the bytes of a PNG file, or as 8-bit RGBA rows from the top, sRGB. */
export type DecodedPicture = PictureSize & ({ readonly png: Uint8Array } | { readonly rgba: Uint8Array });

/** A frame that is ready to be drawn at one scale. */
export interface LoadedPicture extends PictureSize {
  readonly image: Image | Canvas;
}

/**
 * Loads a frame so that it can be drawn at `scale` (target pixels a picture pixel). A frame that is made smaller is
 * resampled here by Lanczos: the canvas looks at too few pixels when it shrinks by more than two, and grass flickers.
 */
export async function loadPicture(picture: DecodedPicture, scale: number): Promise<LoadedPicture> {
  const { width, height } = picture;
  const input =
    'png' in picture ? sharp(picture.png) : sharp(picture.rgba, { raw: { width, height, channels: 4 as const } });
  const size = await actualSize(picture);
  if (size.width !== width || size.height !== height)
    throw new Error(`picture is ${size.width} x ${size.height} pixels, not ${width} x ${height} as ordered`);
  const shrunk =
    scale < 1
      ? input.resize({ width: Math.ceil(width * scale), height: Math.ceil(height * scale), fit: 'fill' })
      : input;
  const bytes = await shrunk.toColourspace('srgb').png({ compressionLevel: 0 }).toBuffer();
  return { width, height, image: await loadImage(bytes) };
}

async function actualSize(picture: DecodedPicture): Promise<PictureSize> {
  if ('rgba' in picture) {
    const { width, rgba } = picture;
    return { width, height: rgba.length / 4 / width };
  }
  const { width, height } = await sharp(picture.png).metadata();
  return { width, height };
}

/** How the painter of a sheet draws a loaded frame. */
export function drawerOf(ctx: SKRSContext2D, picture: LoadedPicture): DrawPicture {
  const across = picture.image.width / picture.width;
  const down = picture.image.height / picture.height;
  return (source, target) => {
    ctx.imageSmoothingEnabled = true;
    ctx.imageSmoothingQuality = 'high';
    ctx.drawImage(
      picture.image,
      source.x * across,
      source.y * down,
      source.width * across,
      source.height * down,
      target.x,
      target.y,
      target.width,
      target.height,
    );
  };
}
