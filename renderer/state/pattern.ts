import { changedChain, changedRange } from '../../core/measure/pattern-source.ts';
import { EMPTY_PATTERN } from '../../core/measure/pattern.ts';
import { AppError } from '../../core/model/errors.ts';
import type { Chain, Pattern, ReadPattern, WantedRange } from '../../core/model/pattern.ts';
import { ask } from '../api.ts';
import { setApp } from './app.ts';
import { createAutosave } from './autosave.ts';
import type { SaveState } from './autosave.ts';
import { tellDone, tellTrouble } from './messages.ts';
import { withEntry } from './pattern-edit.ts';
import { createStore } from './store.ts';

/** The pattern of the book; nothing is wanted until it is read. */
export const ownPattern = createStore<ReadPattern>({
  ...{ pattern: EMPTY_PATTERN, shippedPattern: EMPTY_PATTERN },
  ...{ shipped: true, trouble: null },
});

/** Whether the pattern's page is on screen, over whatever else is open. */
export const patternOpen = createStore<boolean>(false);

export const patternSaving = createStore<SaveState>('saved');

const autosave = createAutosave(
  (state) => patternSaving.update(() => state),
  (error) => {
    if (!(error instanceof AppError) || error.code !== 'bad-request')
      return tellTrouble(error, { label: 'Save again', run: () => autosave.retry() });
    // What the book will never take is given up, and what it has is shown.
    autosave.drop();
    readPattern()
      .then(() => tellTrouble(error))
      .catch(tellTrouble);
  },
);

/** Reads the pattern at start. */
export async function readPattern(): Promise<void> {
  putToUse(await ask('pattern/read', null));
}

function putToUse(read: ReadPattern): void {
  ownPattern.update(() => read);
  if (read.trouble !== null) setApp({ message: { kind: 'trouble', text: read.trouble, nextStep: null } });
}

/** Puts a changed pattern to use at once, and keeps it. */
export function changePattern(part: Partial<Pattern>): void {
  const pattern = { ...ownPattern.get().pattern, ...part };
  ownPattern.update((state) => ({ ...state, pattern, shipped: false, trouble: null }));
  autosave.put(() => ask('pattern/write', pattern));
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

/** Back to the pattern that ships with the program; the coach's own is gone. */
export async function resetPattern(): Promise<void> {
  await autosave.settled();
  autosave.drop();
  putToUse(await ask('pattern/reset', null));
}

/** Writes the pattern where the coach says. */
export async function exportPattern(): Promise<void> {
  await autosave.settled();
  const written = await ask('pattern/export', null);
  if (written !== null) tellDone(`Wrote the pattern to ${written.path}`);
}

/** Takes the pattern of a file that the coach chooses. Answers whether one was taken. */
export async function importPattern(): Promise<boolean> {
  await autosave.settled();
  const taken = await ask('pattern/import', null);
  if (taken === null) return false;
  autosave.drop();
  putToUse(taken.read);
  tellDone(`This book has the pattern of ${taken.path} now`);
  return true;
}
