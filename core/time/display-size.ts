import type { Ratio } from '../model/frame.ts';

export interface Size {
  /** Pixels, >= 1. */
  readonly width: number;
  readonly height: number;
}

/**
 * Size of a stored picture once its pixels are square: the side on which pixels are too short is stretched, so that no
 * stored pixel is lost. Rounded to whole pixels. `pixelAspect` is a stored pixel's width over its height, > 0.
 */
export function squarePixelSize(stored: Size, pixelAspect: Ratio): Size {
  const { num, den } = pixelAspect;
  return num >= den
    ? { width: Math.round((stored.width * num) / den), height: stored.height }
    : { width: stored.width, height: Math.round((stored.height * den) / num) };
}

/** Size of the picture after it was turned by quarters. */
export function turnedSize(size: Size, turn: 0 | 90 | 180 | 270): Size {
  return turn === 90 || turn === 270 ? { width: size.height, height: size.width } : size;
}
