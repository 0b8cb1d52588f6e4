import type { ClipIndex } from '../../core/time/clip-index.ts';

interface FrameFacts {
  /** Ticks of the last frame; by default as many as between the first two, or 1. */
  readonly lastTicks?: number;
  /** Frames that stand by themselves; by default the first. */
  readonly keys?: readonly number[];
}

/** The index of a small plain clip whose frames come at the given ticks of 1/`den` s, but for what is `changed`. */
export function clipIndexOf(
  pts: readonly number[],
  den: number,
  { lastTicks, keys = [0], ...changed }: FrameFacts & Partial<ClipIndex> = {},
): ClipIndex {
  const last = lastTicks ?? (pts[1] ?? 1) - (pts[0] ?? 0);
  return {
    width: 4,
    height: 2,
    turn: 0,
    mirrored: false,
    pixelAspect: { num: 1, den: 1 },
    timebase: { num: 1, den },
    variable: false,
    nominalRate: null,
    captureRate: null,
    sound: false,
    dynamicRange: 'sdr',
    frames: pts.map((at, place) => ({ pts: at, ticks: (pts[place + 1] ?? at + last) - at, key: keys.includes(place) })),
    damage: [],
    leftOut: null,
    ...changed,
  };
}
