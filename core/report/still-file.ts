/** What kinds of file a still can be: a JPEG is small enough for mail, a PNG exact. */
export const STILL_FORMATS = ['png', 'jpeg'] as const;
export type StillFormat = (typeof STILL_FORMATS)[number];

/** Pixels across. Below `narrowest` numbers are too coarse to read; `usual` fits a mail as a JPEG. */
export const STILL_WIDTH = { narrowest: 640, usual: 1600, widest: 4000 } as const;

/** What the window offers to choose from. */
export const OFFERED_WIDTHS = [1200, STILL_WIDTH.usual, 2400, 3200] as const;

export function isStillWidth(width: number): boolean {
  return width >= STILL_WIDTH.narrowest && width <= STILL_WIDTH.widest;
}

/** Largest JPEG in bytes, so that a handful of them goes by mail. */
export const MAIL_BYTES = 1_000_000;
