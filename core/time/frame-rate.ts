import type { Ratio } from '../model/frame.ts';
import { ratio } from './rational.ts';

/** Rates that cameras and editors are made for, frames a second. */
const USUAL_RATES: readonly Ratio[] = [
  24, 25, 30, 48, 50, 60, 90, 96, 100, 120, 180, 200, 240, 250, 300, 480, 960, 1000,
]
  .map((whole) => ({ num: whole, den: 1 }))
  .concat([24, 30, 60, 90, 120, 240].map((whole) => ({ num: whole * 1000, den: 1001 })));

/** Gaps of one steady rate, rounded to the time base one by one, differ by one tick at the most. */
const ROUNDING_TICKS = 1;

export interface FrameRate {
  /** Whether the gaps between frames differ by more than the rounding of the time base. */
  readonly variable: boolean;
  /** Frames a second: the steady rate, or the average when variable. Null with fewer than two frames. */
  readonly nominalRate: Ratio | null;
}

/**
 * The rate of frames shown at `times` (ticks, strictly increasing).
 *
 * A steady clip gets the usual rate that fits best when every time stamp lies within one tick of it, because a coarse
 * time base (Matroska: 1 ms) hides 30000/1001 behind its rounding. Otherwise the rate is (frames - 1) / (last - first).
 */
export function frameRate(times: readonly number[], timebase: Ratio): FrameRate {
  const [first, last] = [times[0], times.at(-1)];
  if (first === undefined || last === undefined || times.length < 2) return { variable: false, nominalRate: null };

  let [shortest, longest] = [Infinity, -Infinity];
  for (let i = 1; i < times.length; i += 1) {
    const gap = (times[i] ?? first) - (times[i - 1] ?? first);
    shortest = Math.min(shortest, gap);
    longest = Math.max(longest, gap);
  }
  const variable = longest - shortest > ROUNDING_TICKS;
  const average = ratio((times.length - 1) * timebase.den, (last - first) * timebase.num);
  if (variable || longest === shortest) return { variable, nominalRate: average };

  let best: { readonly rate: Ratio; readonly off: number } | null = null;
  for (const rate of USUAL_RATES) {
    const ticksAFrame = (rate.den * timebase.den) / (rate.num * timebase.num);
    const off = times.reduce((worst, time, i) => Math.max(worst, Math.abs(time - first - i * ticksAFrame)), 0);
    if (off <= ROUNDING_TICKS && (best === null || off < best.off)) best = { rate, off };
  }
  return { variable, nominalRate: best?.rate ?? average };
}
