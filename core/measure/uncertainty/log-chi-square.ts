/**
 * The logarithm of a scatter that is known from few swings: log of chi-square / freedom. Its mean, variance and fourth
 * cumulant are derivatives of the log gamma function at freedom / 2 (M. Abramowitz, I. A. Stegun, Handbook of Mathematical
 * Functions, 6.3 and 6.4). All freedoms are > 0 and need not be whole.
 */

/** From here on the series in 1/x, taken as far as it is here, are good to 1e-12 of themselves. */
const FAR = 20;

/** First derivative of the log gamma function, x > 0 (6.3.5 and 6.3.18). */
export function digamma(x: number): number {
  let sum = 0;
  let at = x;
  for (; at < FAR; at += 1) sum -= 1 / at;
  const square = 1 / at ** 2;
  return sum + Math.log(at) - 1 / (2 * at) - square * (1 / 12 - square * (1 / 120 - square * (1 / 252 - square / 240)));
}

/** Second derivative, x > 0: π²/6 at 1 (6.4.10). */
export function trigamma(x: number): number {
  return sumOfPowers(2, x);
}

/** Sum of (x + k)^-s over k = 0, 1, 2 ..., s > 1: Euler and Maclaurin's formula behind the first terms (23.1.30). */
function sumOfPowers(s: number, x: number): number {
  let sum = 0;
  let at = x;
  for (; at < FAR; at += 1) sum += at ** -s;
  const next = (s * at ** (-s - 1)) / 12;
  const third = (s * (s + 1) * (s + 2) * at ** (-s - 3)) / 720;
  const fifth = (s * (s + 1) * (s + 2) * (s + 3) * (s + 4) * at ** (-s - 5)) / 30_240;
  return sum + at ** (1 - s) / (s - 1) + at ** -s / 2 + next - third + fifth;
}

/** What the log of a scatter of so much freedom is on the average, if the variance is 1: below 0. */
export function meanOfLog(freedom: number): number {
  return digamma(freedom / 2) - Math.log(freedom / 2);
}

/** Variance of the log of a squared scatter of so much freedom. */
export function varianceOfLog(freedom: number): number {
  return trigamma(freedom / 2);
}

/** How much heavier than a normal distribution's its tails are: excess kurtosis, 0 to 12. */
export function excessOfLog(freedom: number): number {
  return (6 * sumOfPowers(4, freedom / 2)) / varianceOfLog(freedom) ** 2;
}

/** The freedom whose log scatter varies so much, `variance` > 0: the way back. Found by halving: variance only falls. */
export function freedomOfLog(variance: number): number {
  if (!(variance > 0)) throw new Error('freedom of log: the variance must be more than 0');
  // trigamma(x) lies between 1/x and 1/x + 1/x².
  let low = 1 / variance;
  let high = 1 / variance + 1 / Math.sqrt(variance);
  for (let step = 0; step < 100 && high - low > 1e-14 * high; step += 1) {
    const middle = (low + high) / 2;
    if (trigamma(middle) > variance) low = middle;
    else high = middle;
  }
  return low + high;
}
