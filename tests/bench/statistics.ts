/** The numbers that are made of measurements. All pure; an empty list of measurements has no number: null. */

/** The smallest value that at least `share` (0 to 1) of all values do not exceed (nearest rank). */
export function percentile(values: readonly number[], share: number): number | null {
  if (!(share >= 0 && share <= 1)) throw new Error(`share must be from 0 to 1, not ${share}`);
  if (values.some((value) => Number.isNaN(value))) throw new Error('values must be numbers');
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? null;
}

/** The middle value; of an even number of values the mean of the two in the middle. */
export function median(values: readonly number[]): number | null {
  const sorted = values.toSorted((a, b) => a - b);
  const [low, high] = [sorted[Math.floor((sorted.length - 1) / 2)], sorted[Math.ceil((sorted.length - 1) / 2)]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}

/** `value` / `base`; null where one is missing or `base` is 0. */
export function ratio(value: number | null, base: number | null): number | null {
  return value === null || base === null || base === 0 ? null : value / base;
}

/** What a run of pictures looked like: a hand that holds a key wants each of them, in order. */
export interface RunOfPictures {
  /** Pictures a second between the first and the last; null with fewer than two. */
  readonly rate: number | null;
  /** Frames passed over between one picture and the next. */
  readonly skipped: number;
  /** Pictures that came after one that lies farther along. */
  readonly disordered: number;
}

/** `pictures` as they were painted, `at` in milliseconds; the same frame painted again does not count. */
export function describeRun(
  pictures: readonly { readonly index: number; readonly at: number }[],
  direction: 1 | -1,
): RunOfPictures {
  const changes = pictures.filter((picture, place) => picture.index !== pictures[place - 1]?.index);
  const steps = changes.slice(1).map((picture, place) => (picture.index - (changes[place]?.index ?? 0)) * direction);
  const lasted = (changes.at(-1)?.at ?? 0) - (changes[0]?.at ?? 0);
  return {
    rate: changes.length < 2 || lasted <= 0 ? null : ((changes.length - 1) * 1000) / lasted,
    skipped: steps.reduce((sum, step) => sum + Math.max(0, step - 1), 0),
    disordered: steps.filter((step) => step < 1).length,
  };
}
