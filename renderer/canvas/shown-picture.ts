import type { PictureQuality } from '../../core/model/picture-layout.ts';

/**
 * Which frame's picture is on the bench, told by whoever paints it. A held key waits for it, so that no frame of a run is
 * passed over; the canvas carries it as data for whoever looks on.
 */
export interface ShownPicture {
  readonly clip: string;
  readonly index: number;
  /** `none`: there is no picture of this frame. */
  readonly quality: PictureQuality | 'none';
}

let shown: ShownPicture | null = null;
let companion: { readonly wanted: number; readonly shown: number | null } | null = null;

export function setShownPicture(picture: ShownPicture | null): void {
  shown = picture;
}

/** Which frame of the companion is wanted, and which one is shown; null where there is no companion. */
export function setCompanionPicture(picture: Partial<NonNullable<typeof companion>> | null): void {
  companion = picture === null ? null : { wanted: -1, shown: null, ...companion, ...picture };
}

/** How far the pictures of a frame of a clip are, the companion's with it: `none` says that there is none of the frame. */
export function seenOf(clip: string, index: number): 'coming' | 'there' | 'none' {
  if (!isShown(clip, index)) return 'coming';
  if (shown?.quality === 'none') return 'none';
  return companion === null || companion.shown === companion.wanted ? 'there' : 'coming';
}

/** Whether what is on the bench is this frame of this clip, or it is known that it has no picture. */
export function isShown(clip: string, index: number): boolean {
  return shown !== null && shown.clip === clip && shown.index === index;
}
