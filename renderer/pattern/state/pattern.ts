import { changedChain, changedRange } from '../../../core/measure/pattern/pattern-source.ts';
import { EMPTY_PATTERN } from '../../../core/measure/pattern/pattern.ts';
import type { Chain, Pattern, ReadPattern, WantedRange } from '../../../core/model/pattern.ts';
import { ask } from '../../api.ts';
import { setApp } from '../../shell/state/app-state.ts';
import { createAutosave, settleAutosave } from '../../shell/state/autosave.ts';
import type { SaveState } from '../../shell/state/autosave.ts';
import { isRefused } from '../../swing/state/edit-actions.ts';
import { inputHandled } from '../../shell/state/input-handled.ts';
import { tellDone, tellTrouble } from '../../shell/state/messages.ts';
import { withEntry } from './pattern-edit.ts';
import { createPlace } from '../../shell/state/place.ts';
import { createStore } from '../../shell/state/store.ts';

/** The pattern of the book; nothing is wanted until it is read. */
export const ownPattern = createStore<ReadPattern>({
  ...{ pattern: EMPTY_PATTERN, shippedPattern: EMPTY_PATTERN },
  ...{ shipped: true, trouble: null },
});

/** Whether the pattern's page is on screen, over whatever else is open. */
export const patternOpen = createStore<boolean>(false);

export const patternSaving = createStore<SaveState>('saved');

const autosave = createAutosave({
  report: (state) => patternSaving.update(() => state),
  failed: (error) => tellTrouble(error, { label: 'Save again', run: () => autosave.retry() }),
  // What the book will never take is given up, and what it has is shown.
  refused: (error) =>
    void readPattern()
      .then(() => tellTrouble(error))
      .catch(tellTrouble),
  isRefused,
  retry: () => ask('writes/retry', { row: 'pattern' }),
  inputHandled,
});

/** Counts in what the program keeps of a page before this one. */
export const takeOverPattern = (waiting: number): void => autosave.takeOver(waiting);
export const retryPattern = (): void => autosave.retry();
/** Settles when no change is on its way to the program any more. */
export const settlePattern = (): Promise<void> => autosave.settled();

/** The pattern that is shown. */
const place = createPlace();

/** Reads the pattern at start. */
export async function readPattern(): Promise<void> {
  await place.fill(() => ask('pattern/read', null), putToUse);
}

function putToUse(read: ReadPattern): void {
  ownPattern.update(() => read);
  if (read.trouble !== null) setApp({ message: { kind: 'trouble', text: read.trouble, nextStep: null } });
}

/** Puts a changed pattern to use at once, and keeps it. */
export function changePattern(part: Partial<Pattern>): void {
  place.leave();
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

/** Back to the pattern that ships with the program; the coach's own is gone, also what of it was not written yet. */
export async function resetPattern(): Promise<void> {
  await autosave.settled();
  await place.fill(() => ask('pattern/reset', null), putToUse);
  autosave.settledOtherwise();
}

/** Writes the pattern where the coach says. Where the latest changes could not be saved, none is written: it would lack them. */
export async function exportPattern(): Promise<void> {
  await settleAutosave(autosave);
  const written = await ask('pattern/export', null);
  if (written !== null) tellDone(`Wrote the pattern to ${written.path}`);
}

/** Takes the pattern of a file that the coach chooses. Answers whether one was taken. */
export async function importPattern(): Promise<boolean> {
  await autosave.settled();
  let path: string | null = null;
  const isShown = await place.fill(
    () => ask('pattern/import', null),
    (taken) => {
      if (taken === null) return;
      path = taken.path;
      putToUse(taken.read);
    },
  );
  if (!isShown || path === null) return false;
  autosave.settledOtherwise();
  tellDone(`This book has the pattern of ${String(path)} now`);
  return true;
}
