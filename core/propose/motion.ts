import type { Luma } from './luma.ts';

/** A sample that changes by less is taken for the noise of a camera or a codec. */
const NOISE = 12;

/** How much moved between two pictures of one size: the mean of how far samples changed beyond noise, 0 to 243. */
export function motionBetween(before: Luma, after: Luma): number {
  if (before.length !== after.length || before.length === 0)
    throw new Error(`pictures of one size are compared, not ${before.length} and ${after.length} samples`);
  let sum = 0;
  for (let at = 0; at < before.length; at += 1) {
    const change = Math.abs((before[at] ?? 0) - (after[at] ?? 0));
    if (change > NOISE) sum += change - NOISE;
  }
  return sum / before.length;
}

/** Each value as the mean of itself and its neighbours: codecs move in steps of two or three frames. */
export function smoothed(values: readonly number[]): readonly number[] {
  return values.map((_, at) => {
    const near = values.slice(Math.max(0, at - 1), at + 2);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  });
}
