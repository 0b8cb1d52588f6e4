import { normalQuantile } from './normal-quantile.ts';

/**
 * How sure a standard uncertainty is of itself: degrees of freedom, > 0, Infinity where it is known or assumed.
 * JCGM 100:2008 (GUM), annex G. A few repeats give a standard deviation that may itself be off, and the 95 % interval must
 * be wider for it.
 */
export interface Component {
  /** Standard uncertainty that it gives the result, in the result's unit; >= 0, the sign of its slope does not matter. */
  readonly u: number;
  /** > 0; Infinity when left to chance alone. */
  readonly freedom: number;
}

/** Standard deviations either side that hold 95 % of a normal distribution, rounded as usual from 1.959964. */
export const NORMAL_COVERAGE = 1.96;

/** 95 % lie between the quantiles of 2.5 % and this. */
const UPPER = 0.975;

/**
 * Welch-Satterthwaite, GUM G.4.1, formula G.2b: u^4 / sum(u_i^4 / freedom_i) with u^2 = sum u_i^2. For independent
 * components: coordinates whose u rests on one and the same estimate (all that a coach's standard deviation of one body
 * point stands for) are first made one component, u the root of the sum of their squares. Infinity where nothing with
 * finite freedom counts, an empty list among them.
 */
export function effectiveFreedom(components: readonly Component[]): number {
  for (const { u, freedom } of components) {
    if (!(u >= 0) || u === Infinity) throw new Error('components: u must be finite and 0 or more');
    if (!(freedom > 0)) throw new Error('components: freedom must be more than 0');
  }
  // Parts of the largest: fourth powers of very small and very large u would leave the range of a number.
  const largest = components.reduce((most, { u }) => Math.max(most, u), 0);
  if (largest === 0) return Infinity;
  const squares = components.reduce((sum, { u }) => sum + (u / largest) ** 2, 0);
  const fourths = components.reduce((sum, { u, freedom }) => sum + (u / largest) ** 4 / freedom, 0);
  return fourths === 0 ? Infinity : squares ** 2 / fourths;
}

/**
 * From here on Student's t is the normal quantile to 3e-6 (Cornish and Fisher's first term, (z³ + z) / (4 freedom)), and the
 * continued fraction behind it loses figures.
 */
const AS_GOOD_AS_NORMAL = 1e6;

/**
 * Standard uncertainties either side that hold 95 %: Student's t, and never less than `NORMAL_COVERAGE`, so that nothing
 * jumps where the freedom becomes large. `freedom` > 0, Infinity among it; it need not be whole.
 */
export function coverageFactor(freedom: number): number {
  if (freedom > AS_GOOD_AS_NORMAL) return NORMAL_COVERAGE;
  return Math.max(NORMAL_COVERAGE, studentQuantile(UPPER, freedom));
}

/**
 * The way back: the freedom that needs this coverage factor; Infinity at `NORMAL_COVERAGE` and below. Secants on 1 / freedom, in
 * which t is nearly a straight line; good to 1e-6 of itself.
 */
export function freedomOfCoverage(coverage: number): number {
  const beyond = coverage - NORMAL_COVERAGE;
  if (beyond < 1e-5) return Infinity;
  const z = NORMAL_COVERAGE;
  const off = (inverse: number): number => studentPart(coverage, 1 / inverse) - UPPER;
  let [last, next] = [beyond / (z ** 3 + z), (4 * beyond) / (z ** 3 + z)];
  let before = off(last);
  for (let step = 0; step < 30; step += 1) {
    const now = off(next);
    if (now === before || Math.abs(next - last) < 1e-7 * next) break;
    const better = next - (now * (next - last)) / (now - before);
    [last, before] = [next, now];
    // Less than one degree of freedom in a hundred is never asked for; a secant may overshoot it.
    next = Math.min(Math.max(better, last / 4), 100);
  }
  return 1 / next;
}

/** More steps than any freedom needs whose t is a number: far out a step makes t nearly (1 + 1 / freedom) times as large. */
const MOST_STEPS = 10_000;
/** Steps double the figures: behind one that is so small a part of t there is nothing but rounding. */
const LAST_STEP = 1e-10;

/**
 * The t below which lies the part `p` of Student's distribution, 0 < p < 1; `freedom` > 0 and finite, up to 1e6. Good
 * to 1e-9 of itself. Newton's steps from the normal quantile: above 0 the distribution's slope only falls and its t lies farther
 * out than the normal one, so that no step goes past the answer.
 */
export function studentQuantile(p: number, freedom: number): number {
  if (!(p > 0 && p < 1)) throw new Error('student: p must lie between 0 and 1');
  if (!(freedom > 0) || freedom > AS_GOOD_AS_NORMAL)
    throw new Error('student: freedom must be more than 0 and at most 1e6');
  if (p < 0.5) return -studentQuantile(1 - p, freedom);
  if (p === 0.5) return 0;
  const above = tailOf(freedom);
  // The slope of the distribution at its middle: 1 / (sqrt(freedom) B(freedom/2, 1/2)).
  const steepest = Math.exp(-above.logBeta) / Math.sqrt(freedom);
  let t = normalQuantile(p);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const slope = steepest * (1 + (t * t) / freedom) ** (-(freedom + 1) / 2);
    const by = (above.at(t) - (1 - p)) / slope;
    if (!(t + by < 1e150)) throw new Error('student: so large a t is no number');
    t += by;
    if (Math.abs(by) <= LAST_STEP * t) break;
  }
  return t;
}

/** The part of Student's distribution that lies below t: 1 - I_x(freedom/2, 1/2) / 2 with x = freedom / (freedom + t^2). */
export function studentPart(t: number, freedom: number): number {
  const tail = tailOf(freedom).at(t);
  return t >= 0 ? 1 - tail : tail;
}

/** The part that lies above |t|, and the logarithm of B(freedom/2, 1/2), which is the same for every t. */
function tailOf(freedom: number): { readonly logBeta: number; readonly at: (t: number) => number } {
  const logBeta = logGamma(freedom / 2) + logGamma(0.5) - logGamma((freedom + 1) / 2);
  const at = (t: number): number => 0.5 * betaPart(freedom / (freedom + t * t), freedom / 2, 0.5, logBeta);
  return { logBeta, at };
}

/**
 * Regularised incomplete beta function I_x(a, b), 0 <= x <= 1, a and b > 0; `logBeta`: logarithm of B(a, b). Continued fraction
 * (Abramowitz and Stegun 26.5.8) by Lentz's method; on the far side of its peak by I_x(a, b) = 1 - I_(1-x)(b, a), where it
 * converges.
 */
function betaPart(x: number, a: number, b: number, logBeta: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaPart(1 - x, b, a, logBeta);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta);
  return (front * betaFraction(x, a, b)) / a;
}

function betaFraction(x: number, a: number, b: number): number {
  // Lentz's method must never divide by 0.
  const safe = (value: number) => (Math.abs(value) < 1e-300 ? 1e-300 : value);
  let c = 1;
  let d = 1 / safe(1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m <= 10_000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / safe(1 + even * d);
    c = safe(1 + even / c);
    result *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / safe(1 + odd * d);
    c = safe(1 + odd / c);
    result *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return result;
}

/** Coefficients of Lanczos's approximation with g = 7, nine terms; the relative error of gamma stays below 1e-14. */
const LANCZOS_START = 0.99999999999980993;
const LANCZOS_TERMS: readonly number[] = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
  -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/** Natural logarithm of the gamma function, z > 0. */
function logGamma(z: number): number {
  if (z < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * z)) - logGamma(1 - z);
  const x = LANCZOS_TERMS.reduce((sum, term, i) => sum + term / (z + i), LANCZOS_START);
  const t = z + 6.5;
  return 0.5 * Math.log(2 * Math.PI) + (z - 0.5) * Math.log(t) - t + Math.log(x);
}
