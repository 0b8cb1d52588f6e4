/** Coefficients of the rational approximations, for the middle and for the tails. */
const MIDDLE = [
  [-39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716, 2.506628277459239],
  [-54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572, 1],
] as const;
const TAIL = [
  [
    -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
    2.938163982698783,
  ],
  [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416, 1],
] as const;
const TAIL_FROM = 0.02425;

/**
 * The value that a standard normal variable stays below with probability `p`, p in (0, 1): -1.96 for 0.025. To 1.2e-9 of
 * itself (P. J. Acklam, "An algorithm for computing the inverse normal cumulative distribution function", 2003, from memory;
 * the test compares it with printed tables). Throws outside of (0, 1).
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new Error('normalQuantile: p must be in (0, 1)');
  if (p > 1 - TAIL_FROM) return -normalQuantile(1 - p);
  if (p < TAIL_FROM) {
    const q = Math.sqrt(-2 * Math.log(p));
    return polynomial(TAIL[0], q) / polynomial(TAIL[1], q);
  }
  const q = p - 0.5;
  return (q * polynomial(MIDDLE[0], q * q)) / polynomial(MIDDLE[1], q * q);
}

/** Horner's scheme; the highest power comes first. */
function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (const coefficient of coefficients) sum = sum * x + coefficient;
  return sum;
}
