import { join } from 'node:path';

/** Samples a second of what is recorded: whole ones a millisecond. */
export const TALK_SAMPLE_RATE = 48_000;

/** The files of a take in a talk-through's folder; takes count from 0. */
export function takeFiles(folder: string, take: number): { readonly log: string; readonly sound: string } {
  const name = `take-${String(take).padStart(4, '0')}`;
  return { log: join(folder, `${name}.jsonl`), sound: join(folder, `${name}.wav`) };
}

/** What is known of a take when it begins. */
export interface TakeBegun {
  /** From which millisecond of the talk-through it is said anew; null: it is the first. */
  readonly from: number | null;
  /** The earlier swing that is shown beside, as an id of the book. */
  readonly thenId: string | null;
}
