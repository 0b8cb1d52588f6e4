import { parseArgs } from 'node:util';
import { CLIPS, ROW_NAMES } from './bars.ts';
import type { ClipName, RowName } from './bars.ts';

export interface BenchOptions {
  readonly clips: readonly ClipName[];
  readonly rows: readonly RowName[];
  /** Prints the JSON alone; what the bench is doing goes to the error output. */
  readonly json: boolean;
  /** File to write the JSON to as well, or null. */
  readonly out: string | null;
  /** Fewer repeats, for working on the bench itself; `requests checked` then misses its bar. */
  readonly quick: boolean;
}

/** Throws with one sentence for an option that there is not. */
export function parseOptions(args: readonly string[]): BenchOptions {
  const { values } = parseArgs({
    args: [...args],
    options: {
      clip: { type: 'string', multiple: true, default: [] },
      figure: { type: 'string', multiple: true, default: [] },
      json: { type: 'boolean', default: false },
      out: { type: 'string' },
      quick: { type: 'boolean', default: false },
    },
  });
  return {
    clips: chosen('clip', values.clip, CLIPS),
    rows: chosen('figure', values.figure, ROW_NAMES),
    json: values.json,
    out: values.out ?? null,
    quick: values.quick,
  };
}

/** The named ones in the order of the list; all of them when none is named. */
function chosen<Name extends string>(option: string, named: readonly string[], all: readonly Name[]): readonly Name[] {
  const unknown = named.find((name) => !all.some((known) => known === name));
  if (unknown !== undefined) throw new Error(`--${option} ${unknown} is not there; choose from ${all.join(', ')}.`);
  return named.length === 0 ? all : all.filter((name) => named.includes(name));
}
