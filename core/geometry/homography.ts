import type { PicturePoint } from '../model/mark.ts';
import type { GroundPoint } from './ground-marks.ts';
import { entry, invert } from './linear.ts';
import type { Matrix } from './linear.ts';

/**
 * The map between the flat ground (millimetres) and the picture (pixels) through a pinhole camera, as 3 x 3 matrices on
 * (x, y, 1). Their scale is free but for its sign: the third coordinate is positive on the side of the horizon that the
 * camera sees the ground on. Whatever rises from the ground is not on the map.
 */
export interface Homography {
  readonly groundToPicture: Matrix;
  /** The exact inverse of `groundToPicture`, sign and all. */
  readonly pictureToGround: Matrix;
}

/** The map with this matrix from the ground to the picture, or null when it cannot be undone. */
export function homographyOf(groundToPicture: Matrix): Homography | null {
  const pictureToGround = invert(groundToPicture);
  return pictureToGround === null ? null : { groundToPicture, pictureToGround };
}

/**
 * Where a place on the ground lies in the picture, pixels; may be outside of it. null for a place that is not in front of
 * the camera.
 */
export function toPicture(homography: Homography, ground: GroundPoint): PicturePoint | null {
  return mapped(homography.groundToPicture, ground);
}

/** The place on the ground, mm, that is seen at a picture point. null on the horizon and above it, where no ground is. */
export function toGround(homography: Homography, picture: PicturePoint): GroundPoint | null {
  return mapped(homography.pictureToGround, picture);
}

/** A third coordinate below this part of what it is summed from is rounding: the place is infinitely far. */
const ROUNDING = 1e-12;

function mapped(matrix: Matrix, { x, y }: PicturePoint): { readonly x: number; readonly y: number } | null {
  const parts = [entry(matrix, 2, 0) * x, entry(matrix, 2, 1) * y, entry(matrix, 2, 2)] as const;
  const size = Math.abs(parts[0]) + Math.abs(parts[1]) + Math.abs(parts[2]);
  const depth = parts[0] + parts[1] + parts[2];
  if (!(depth > ROUNDING * size)) return null;
  const row = (i: 0 | 1): number => entry(matrix, i, 0) * x + entry(matrix, i, 1) * y + entry(matrix, i, 2);
  return { x: row(0) / depth, y: row(1) / depth };
}
