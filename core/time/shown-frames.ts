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
  const timed = pictures.filter((picture): picture is ToShow => picture.pts !== null && !picture.hidden);
  const hidden = pictures.reduce((count, picture) => count + (picture.hidden ? 1 : 0), 0);
  // Sorting keeps the order of what is equal, so the first in file order comes first.
  const sorted = timed.some(({ pts }, place) => pts < (timed[place - 1]?.pts ?? pts))
    ? timed.toSorted((a, b) => a.pts - b.pts)
    : timed;
  const shown = sorted.filter(({ pts }, place) => place === 0 || pts !== sorted[place - 1]?.pts);
  const frames = shown.map(({ pts, key, duration }, place): ShownFrame => {
    const next = shown[place + 1]?.pts;
    const before = shown[place - 1]?.pts;
    const gapBefore = before === undefined ? 1 : pts - before;
    const ticks = next === undefined ? (duration > 0 ? duration : gapBefore) : next - pts;
    return { pts, ticks, key };
  });
  const timeless = pictures.length - hidden - timed.length;
  return { frames, timeless, doubled: timed.length - shown.length, hidden };
}

/** One that has a time and is not hidden. */
interface ToShow extends TimedPicture {
  readonly pts: number;
}
