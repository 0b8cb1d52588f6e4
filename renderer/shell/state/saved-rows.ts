import { say } from '../../../core/model/say.ts';
import type { RowName } from '../../../electron/ipc/contract.ts';
import { ask } from '../../api.ts';
import { createAutosave } from './autosave.ts';
import type { Autosave, SaveState } from './autosave.ts';
import { inputHandled } from './input-handled.ts';
import { sayTrouble, solved, tellTrouble } from './messages.ts';

/** What of a row is not saved, in words. */
const NOT_SAVED: Readonly<Record<RowName, (count: number) => string>> = {
  edits: (count) => (count === 1 ? say`1 change is not saved yet.` : say`${String(count)} changes are not saved yet.`),
  goals: () => say`Your changes of the goals are not saved yet.`,
  settings: () => say`Your changes of keys and text are not saved yet.`,
};

const rows = new Map<RowName, Autosave>();

/** The window's end of a row of writes. That it is not saved is told until it is. */
export function createSavedRow(
  row: RowName,
  { report, refused }: { readonly report: (state: SaveState) => void; readonly refused: (error: unknown) => void },
): Autosave {
  const autosave = createAutosave({
    report(state) {
      if (state === 'saved') solved(row);
      report(state);
    },
    failed: (error) => tellTrouble(error, saveAgain(autosave), row),
    refused,
    retry: () => ask('writes/retry', { row }),
    inputHandled,
  });
  rows.set(row, autosave);
  return autosave;
}

function saveAgain(autosave: Autosave): { readonly label: string; readonly run: () => void } {
  return { label: say`Save again`, run: () => autosave.retry() };
}

/** Counts in what the program keeps from a page before this one, and tells of it. */
export function takeOverRows(waiting: Readonly<Record<RowName, number>>): void {
  for (const [row, autosave] of rows) {
    const count = waiting[row];
    if (count === 0) continue;
    autosave.takeOver(count);
    sayTrouble(NOT_SAVED[row](count), saveAgain(autosave), row);
  }
}

/** Settles when no change is on its way to the program any more. */
export async function settleRows(): Promise<void> {
  await Promise.all([...rows.values()].map((autosave) => autosave.settled()));
}
