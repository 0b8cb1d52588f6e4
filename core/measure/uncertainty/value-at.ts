/** The value of an input by its place in the list. Asking for one that is not there is a mistake of ours: it throws. */
export function valueAt(values: readonly number[], slot: number): number {
  const value = values[slot];
  if (value === undefined) throw new Error(`inputs: there is no value ${slot}`);
  return value;
}
