import type { ClipStore } from './clips/clip-store.ts';
import type { RowName } from './bars.ts';
import type { Ledger } from './figures.ts';

/** What every part of a run is given. */
export interface BenchRun {
  readonly store: ClipStore;
  /** Fewer repeats. */
  readonly quick: boolean;
  /** Tells what is being done. */
  say(line: string): void;
  wants(row: RowName): boolean;
  enter(figure: { readonly name: string }, clip: string, value: number | null): void;
}

export function createBenchRun(
  options: { readonly rows: readonly RowName[]; readonly quick: boolean },
  parts: { readonly store: ClipStore; readonly ledger: Ledger; readonly say: (line: string) => void },
): BenchRun {
  return {
    store: parts.store,
    quick: options.quick,
    say: parts.say,
    wants: (row) => options.rows.includes(row),
    enter: ({ name }, clip, value) => parts.ledger.enter(name, clip, value),
  };
}
