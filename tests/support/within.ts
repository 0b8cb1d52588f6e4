/** Throws unless |value - expected| <= tolerance (absolute, inclusive). NaN never passes. */
export function within(value: number, expected: number, tolerance: number, what = 'value'): void {
  if (!(Math.abs(value - expected) <= tolerance))
    throw new Error(`${what}: ${value} is not within ${tolerance} of ${expected} (off by ${value - expected})`);
}
