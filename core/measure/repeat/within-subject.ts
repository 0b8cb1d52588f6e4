/** A standard deviation and how sure it is of itself. */
export interface Spread {
  /** In the unit of the values, >= 0. */
  readonly sd: number;
  /** Degrees of freedom, a whole number >= 1. */
  readonly freedom: number;
}

/**
 * Within-subject standard deviation: how far repeats of one and the same thing scatter about their own mean, pooled over
 * all things. sqrt(sum of squares about each thing's mean / sum of (repeats - 1)); for pairs that is sqrt(sum d^2 / 2n)
 * (Bland and Altman, Lancet 1986;i:307-310). A thing measured once says nothing and is passed over; null when none was
 * measured twice. All values finite.
 */
export function withinSubject(repeats: readonly (readonly number[])[]): Spread | null {
  let squares = 0;
  let freedom = 0;
  for (const values of repeats) {
    if (values.length < 2) continue;
    const mean = meanOf(values);
    for (const value of values) squares += (value - mean) ** 2;
    freedom += values.length - 1;
  }
  if (!Number.isFinite(squares)) throw new Error('repeats: every value must be finite');
  return freedom === 0 ? null : { sd: Math.sqrt(squares / freedom), freedom };
}

export function meanOf(values: readonly number[]): number {
  if (values.length === 0) throw new Error('mean: there must be a value');
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
