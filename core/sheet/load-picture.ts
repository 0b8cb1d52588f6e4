import { createCanvas, loadImage } from '@napi-rs/canvas';
import type { Canvas, Image, SKRSContext2D } from '@napi-rs/canvas';
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
 * Loads a frame so that it can be drawn at `scale` (target pixels a picture pixel). A frame that is made smaller by more
 * than half is halved first, as often as it takes: the canvas looks at too few pixels at a time, and grass flickers.
 */
export async function loadPicture(picture: DecodedPicture, scale: number): Promise<LoadedPicture> {
  const { width, height } = picture;
  let image: Image | Canvas = 'png' in picture ? await loadImage(picture.png) : canvasOf(picture);
  if (image.width !== width || image.height !== height)
    throw new Error(`picture is ${image.width} x ${image.height} pixels, not ${width} x ${height} as ordered`);
  for (let left = scale; left < 0.5; left *= 2) image = halved(image);
  return { width, height, image };
}

/** A canvas that holds RGBA pixels. Fewer or more of them than its size says are our own mistake. */
export function canvasOf({ width, height, rgba }: PictureSize & { readonly rgba: Uint8Array }): Canvas {
  if (rgba.length !== width * height * 4)
    throw new Error(`picture is ${width} x ${rgba.length / 4 / width} pixels, not ${width} x ${height} as ordered`);
  const canvas = createCanvas(width, height);
  const ctx = canvas.getContext('2d');
  const pixels = ctx.createImageData(width, height);
  pixels.data.set(rgba);
  ctx.putImageData(pixels, 0, 0);
  return canvas;
}

/**
 * Loads frames of one place one after the other, each into the memory of the one before, which is gone then: what is let go
 * of by the hundred is not collected soon enough.
 */
export function picturesInPlace(): (
  picture: PictureSize & { readonly rgba: Uint8Array },
  scale: number,
) => LoadedPicture {
  let canvas = createCanvas(1, 1);
  let pixels = canvas.getContext('2d').createImageData(1, 1);
  const halves: Canvas[] = [];
  return ({ width, height, rgba }, scale) => {
    if (rgba.length !== width * height * 4)
      throw new Error(`picture is ${width} x ${rgba.length / 4 / width} pixels, not ${width} x ${height} as ordered`);
    if (canvas.width !== width || canvas.height !== height) {
      canvas = createCanvas(width, height);
      pixels = canvas.getContext('2d').createImageData(width, height);
      halves.length = 0;
    }
    pixels.data.set(rgba);
    canvas.getContext('2d').putImageData(pixels, 0, 0);
    let image = canvas;
    for (let [left, place] = [scale, 0]; left < 0.5; [left, place] = [left * 2, place + 1]) {
      image = halved(image, halves[place]);
      halves[place] = image;
    }
    return { width, height, image };
  };
}

/** Each pixel the mean of four; where a side is odd, of a little more. */
function halved(image: Image | Canvas, into?: Canvas): Canvas {
  const canvas = into ?? createCanvas(Math.ceil(image.width / 2), Math.ceil(image.height / 2));
  const ctx = canvas.getContext('2d');
  ctx.imageSmoothingQuality = 'medium';
  ctx.drawImage(image, 0, 0, canvas.width, canvas.height);
  return canvas;
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
