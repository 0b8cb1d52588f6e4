/** One of several measurements of the same thing. */
export interface Measurement {
  readonly value: number;
  /** Standard uncertainty, > 0. */
  readonly u: number;
}

/**
 * The mean of independent measurements of one thing, each weighted by 1 / u squared; u = 1 / sqrt(sum of weights). Where
 * they differ by more than their u allows, u grows by Birge's ratio sqrt(chi squared / (n - 1)) (R. T. Birge, Phys. Rev. 40
 * (1932) 207, from memory): what was marked wrongly shows in the ±. null for none.
 */
export function combine(measurements: readonly Measurement[]): Measurement | null {
  if (measurements.length === 0) return null;
  const weights = measurements.map(({ u }) => 1 / (u * u));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const value = measurements.reduce((sum, each, i) => sum + (weights[i] ?? 0) * each.value, 0) / total;
  const chi = measurements.reduce((sum, each, i) => sum + (weights[i] ?? 0) * (each.value - value) ** 2, 0);
  const birge = measurements.length === 1 ? 1 : Math.max(1, Math.sqrt(chi / (measurements.length - 1)));
  return { value, u: birge / Math.sqrt(total) };
}
