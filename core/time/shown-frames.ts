import type { ShownFrame } from './clip-index.ts';

/** One coded picture as the file lists it, or one decoded picture, in any order. */
export interface TimedPicture {
  /** Ticks; null when the file gives it no time. */
  readonly pts: number | null;
  /** Ticks; 0 when the file does not say. */
  readonly duration: number;
  readonly key: boolean;
  /** Whether the file says that it is only decoded, never shown (before or after an edit). */
  readonly hidden: boolean;
}

export interface ShownFrames {
  /** In presentation order. */
  readonly frames: readonly ShownFrame[];
  /** Pictures left out because they have no time. */
  readonly timeless: number;
  /** Pictures left out because another one has the same time; the first in file order stands. */
  readonly doubled: number;
  /** Pictures that the file hides. */
  readonly hidden: number;
}

/**
 * The frames that are shown: all that are not hidden, by time. A frame stays until the next one comes; the last one as
 * long as the file says, else as long as the gap before it, else one tick.
 */
export function shownFrames(pictures: readonly TimedPicture[]): ShownFrames {
  const byPts = new Map<number, TimedPicture>();
  let [timeless, doubled, hidden] = [0, 0, 0];
  for (const picture of pictures) {
    if (picture.hidden) hidden += 1;
    else if (picture.pts === null) timeless += 1;
    else if (byPts.has(picture.pts)) doubled += 1;
    else byPts.set(picture.pts, picture);
  }
  const sorted = [...byPts].sort(([a], [b]) => a - b);
  const frames = sorted.map(([pts, { key, duration }], place): ShownFrame => {
    const next = sorted[place + 1]?.[0];
    const before = sorted[place - 1]?.[0];
    const gapBefore = before === undefined ? 1 : pts - before;
    const ticks = next === undefined ? (duration > 0 ? duration : gapBefore) : next - pts;
    return { pts, ticks, key };
  });
  return { frames, timeless, doubled, hidden };
}
