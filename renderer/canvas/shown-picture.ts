import type { Quality } from './frame-pictures.ts';

/**
 * Which frame's picture is on the bench, told by whoever paints it. A held key waits for it, so that no frame of a run is
 * passed over; the canvas carries it as data for whoever looks on.
 */
export interface ShownPicture {
  readonly clip: string;
  readonly index: number;
  /** `none`: there is no picture of this frame. */
  readonly quality: Quality | 'none';
}

let shown: ShownPicture | null = null;

export function setShownPicture(picture: ShownPicture | null): void {
  shown = picture;
}

/** Whether what is on the bench is this frame of this clip, or it is known that it has no picture. */
export function isShown(clip: string, index: number): boolean {
  return shown !== null && shown.clip === clip && shown.index === index;
}
