/**
 * A number that changes over time through given keys, without overshoot: monotone piecewise cubic interpolation.
 * Source: F. N. Fritsch, J. Butland, "A method for constructing local monotone piecewise cubic interpolants", SIAM J.
 * Sci. Stat. Comput. 5(2) 1984 (weighted harmonic mean of the slopes). Continuous with its first derivative; flat
 * between equal keys, so that what is held still stands still exactly; held at both ends.
 */
export type Track = (seconds: number) => number;

/** `times` strictly increasing, as many as `values`, at least two. Throws otherwise. */
export function trackThrough(times: readonly number[], values: readonly number[]): Track {
  if (times.length < 2 || times.length !== values.length)
    throw new Error(`trackThrough: ${String(times.length)} times for ${String(values.length)} values`);
  const at = (list: readonly number[], index: number): number => list[index] ?? 0;
  const gap = times.slice(1).map((time, index) => time - at(times, index));
  if (gap.some((size) => !(size > 0))) throw new Error('trackThrough: times must increase');
  const slope = gap.map((size, index) => (at(values, index + 1) - at(values, index)) / size);
  const tangent = times.map((_, index) => {
    if (index === 0 || index === times.length - 1) return 0;
    const before = at(slope, index - 1);
    const after = at(slope, index);
    if (before * after <= 0) return 0;
    const first = 2 * at(gap, index) + at(gap, index - 1);
    const second = at(gap, index) + 2 * at(gap, index - 1);
    return (first + second) / (first / before + second / after);
  });

  return (seconds) => {
    const last = times.length - 1;
    if (seconds <= at(times, 0)) return at(values, 0);
    if (seconds >= at(times, last)) return at(values, last);
    let index = 0;
    while (seconds > at(times, index + 1)) index += 1;
    const size = at(gap, index);
    const t = (seconds - at(times, index)) / size;
    const t2 = t * t;
    const t3 = t2 * t;
    return (
      (2 * t3 - 3 * t2 + 1) * at(values, index) +
      (t3 - 2 * t2 + t) * size * at(tangent, index) +
      (3 * t2 - 2 * t3) * at(values, index + 1) +
      (t3 - t2) * size * at(tangent, index + 1)
    );
  };
}
