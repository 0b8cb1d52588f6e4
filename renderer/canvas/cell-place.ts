import type { PicturePoint } from '../../core/model/mark.ts';
import type { Box } from '../../core/painting/box.ts';

/** Where a small picture lies in the window, in CSS pixels. It is painted to its width; its height is rounded by the layout. */
export interface CellRect {
  readonly left: number;
  readonly top: number;
  readonly width: number;
}

/** The place under a pointer on a small picture that shows `part` of a frame, in picture coordinates, never rounded. */
export function placeInCell(rect: CellRect, part: Box, at: { readonly x: number; readonly y: number }): PicturePoint {
  return {
    x: part.x + lengthInCell(rect, part, at.x - rect.left),
    y: part.y + lengthInCell(rect, part, at.y - rect.top),
  };
}

/** CSS pixels on a small picture as picture pixels. */
export function lengthInCell(rect: CellRect, part: Box, cssPixels: number): number {
  return (cssPixels / rect.width) * part.width;
}
