/** What kinds of file a still can be: a JPEG is small enough for mail, a PNG exact. */
export const STILL_FORMATS = ['png', 'jpeg'] as const;
export type StillFormat = (typeof STILL_FORMATS)[number];

/**
 * What a still is laid out for. phone: read at arm's length without zooming, one moment. mail: all that was chosen, what nobody
 * can tell in one line. full: every chosen number has its row.
 */
export const STILL_LAYOUTS = ['phone', 'mail', 'full'] as const;
export type StillLayout = (typeof STILL_LAYOUTS)[number];

/** Pixels of a still for a phone, 4 by 5; higher only where a name beyond all measure needs the room. */
export const PHONE_SIZE = { width: 1080, height: 1350 } as const;

/** Pixels across. Below `narrowest` numbers are too coarse to read; `usual` fits a mail as a JPEG. */
export const STILL_WIDTH = { narrowest: 640, usual: 1600, widest: 4000 } as const;

/** What the window offers to choose from. */
export const OFFERED_WIDTHS = [1200, STILL_WIDTH.usual, 2400, 3200] as const;

export function isStillWidth(width: number): boolean {
  return width >= STILL_WIDTH.narrowest && width <= STILL_WIDTH.widest;
}

/** Largest JPEG in bytes, so that a handful of them goes by mail. */
export const MAIL_BYTES = 1_000_000;
