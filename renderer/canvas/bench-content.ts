import type { DrawItem } from '../../core/painting/draw-item.ts';

/**
 * What is on the bench at present, for whoever shows a part of it again: the picture (not theirs to close) and what is
 * drawn over it. Plain values and no store: they change with every step, and are looked at when something is painted.
 */
let picture: ImageBitmap | null = null;
let marks: readonly DrawItem[] = [];

export function setBenchPicture(next: ImageBitmap | null): void {
  picture = next;
}

export function setBenchMarks(next: readonly DrawItem[]): void {
  marks = next;
}

export function benchContent(): { readonly picture: ImageBitmap | null; readonly marks: readonly DrawItem[] } {
  return { picture, marks };
}
