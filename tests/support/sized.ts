/**
 * `npm run test:long` sets the variable. Per commit, what only scatters or repeats is tried less often; the limits that a
 * test holds its counts to follow from how often it tried.
 */
const IS_LONG = process.env['BAYBOOK_TESTS'] === 'long';

/** A size for each commit, and the full size. */
export function sized<Size>(short: Size, long: Size): Size {
  return IS_LONG ? long : short;
}

/** How long a test may take, ms: what is tried many times as often may take many times as long. */
export function lasting(ms: number): number {
  return sized(ms, 10 * ms);
}
