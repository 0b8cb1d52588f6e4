import type { Ratio } from '../model/frame.ts';

/** Greatest common divisor of two whole numbers, >= 0; `divisor(0, n)` is |n|. */
function divisor(a: number, b: number): number {
  let [x, y] = [Math.abs(a), Math.abs(b)];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** The ratio in lowest terms with `den` > 0. Throws when either is no safe whole number or `den` is 0. */
export function ratio(num: number, den: number): Ratio {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || den === 0)
    throw new Error(`a ratio needs two whole numbers and a den other than 0, not ${num}/${den}`);
  const common = divisor(num, den) * Math.sign(den);
  // Adding 0 turns -0 into 0.
  return { num: num / common + 0, den: den / common + 0 };
}

/** "30000/1001", "1/15360" or "2:1" as a ratio in lowest terms; null when the text is no ratio or its den is 0. */
export function parseRatio(text: string): Ratio | null {
  const match = /^(-?\d{1,15})[/:](\d{1,15})$/.exec(text.trim());
  if (match === null) return null;
  const [num, den] = [Number(match[1]), Number(match[2])];
  return den === 0 ? null : ratio(num, den);
}

export function ratioText(value: Ratio): string {
  return `${value.num}/${value.den}`;
}

export function sameRatio(a: Ratio, b: Ratio): boolean {
  return BigInt(a.num) * BigInt(b.den) === BigInt(b.num) * BigInt(a.den);
}

/** Seconds of a time stamp, with its sign. */
export function ticksToSeconds(ticks: number, timebase: Ratio): number {
  return (ticks * timebase.num) / timebase.den;
}
