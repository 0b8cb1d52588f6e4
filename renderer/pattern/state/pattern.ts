import { changedChain, changedRange } from '../../../core/measure/pattern/pattern-source.ts';
import { EMPTY_PATTERN } from '../../../core/measure/pattern/pattern.ts';
import type { Chain, Pattern, ReadPattern, WantedRange } from '../../../core/model/pattern.ts';
import { ask } from '../../api.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { createSavedWhole } from '../../shell/state/saved-whole.ts';
import type { Found } from '../../shell/state/saved-whole.ts';
import { withEntry } from './pattern-edit.ts';

const kept = createSavedWhole<ReadPattern>({
  row: 'pattern',
  // Nothing is wanted until it is read.
  initial: { pattern: EMPTY_PATTERN, shippedPattern: EMPTY_PATTERN, shipped: true, trouble: null },
  read: async () => found(await ask('pattern/read', null)),
  write: ({ pattern }) => ask('pattern/write', pattern),
});

function found(whole: ReadPattern): Found<ReadPattern> {
  return { whole, trouble: whole.trouble };
}

/** The pattern of the book. */
export const ownPattern = kept.shown;
export const patternSaving = kept.saving;

/** Reads the pattern at start. */
export const readPattern = (): Promise<void> => kept.read();

/** Puts a changed pattern to use at once, and keeps it. */
export function changePattern(part: Partial<Pattern>): void {
  kept.change((state) => ({ ...state, pattern: { ...state.pattern, ...part }, shipped: false, trouble: null }));
}

/** Changes a part of one wanted range; what it says of its source follows. */
export function changeRange(index: number, part: Partial<WantedRange>): void {
  const { pattern, shippedPattern } = ownPattern.get();
  const range = pattern.wanted[index];
  if (range === undefined) return;
  changePattern({ wanted: withEntry(pattern.wanted, index, changedRange(range, part, shippedPattern)) });
}

/** Changes a part of one chain; what it says of its source follows. */
export function changeChain(index: number, part: Partial<Chain>): void {
  const { pattern, shippedPattern } = ownPattern.get();
  const chain = pattern.chains[index];
  if (chain === undefined) return;
  changePattern({ chains: withEntry(pattern.chains, index, changedChain(chain, part, shippedPattern)) });
}

/** Back to the pattern that ships with the program; the coach's own is gone, also what of it was not written yet. */
export async function resetPattern(): Promise<void> {
  await kept.replace(async () => found(await ask('pattern/reset', null)));
}

/** Writes the pattern where the coach says. Where the latest changes could not be saved, none is written: it would lack them. */
export async function exportPattern(): Promise<void> {
  await kept.settle();
  const written = await ask('pattern/export', null);
  if (written !== null) tellDone(`Wrote the pattern to ${written.path}`);
}

/** Takes the pattern of a file that the coach chooses. Answers whether one was taken. */
export async function importPattern(): Promise<boolean> {
  let path = '';
  const isTaken = await kept.replace(async () => {
    const taken = await ask('pattern/import', null);
    if (taken === null) return null;
    path = taken.path;
    return found(taken.read);
  });
  if (isTaken) tellDone(`This book has the pattern of ${path} now`);
  return isTaken;
}
