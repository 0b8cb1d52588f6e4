import { USUAL_SETTINGS } from '../../../core/model/settings.ts';
import type { Settings } from '../../../core/model/settings.ts';
import { ask } from '../../api.ts';
import { setApp } from './app-state.ts';
import { createAutosave } from './autosave.ts';
import { isRefused } from '../../swing/state/edit-actions.ts';
import { inputHandled } from './input-handled.ts';
import { keyChoices } from './key-choices.ts';
import { tellTrouble } from './messages.ts';
import { createPlace } from './place.ts';
import { createStore } from './store.ts';

/** What the coach chose for the program itself. */
export const settings = createStore<Settings>(USUAL_SETTINGS);

const autosave = createAutosave({
  report: () => undefined,
  failed: (error) => tellTrouble(error, { label: 'Save again', run: () => autosave.retry() }),
  refused: tellTrouble,
  isRefused,
  retry: () => ask('writes/retry', { row: 'settings' }),
  inputHandled,
});

/** Counts in what the program keeps of a page before this one. */
export const takeOverSettings = (waiting: number): void => autosave.takeOver(waiting);
export const retrySettings = (): void => autosave.retry();
/** Settles when no change is on its way to the program any more. */
export const settleSettings = (): Promise<void> => autosave.settled();

/** The settings that are in use. */
const place = createPlace();

/** Reads the settings at start and puts them to use. */
export async function readSettings(): Promise<void> {
  await place.fill(
    () => ask('settings/read', null),
    (read) => {
      putToUse(read.settings);
      if (read.trouble !== null) setApp({ message: { kind: 'trouble', text: read.trouble, nextStep: null } });
    },
  );
}

/** Puts other settings to use at once, and keeps them. */
export function changeSettings(part: Partial<Settings>): void {
  place.leave();
  const next = { ...settings.get(), ...part };
  putToUse(next);
  autosave.put(() => ask('settings/write', next));
}

function putToUse(next: Settings): void {
  // First what the page is laid out by: who listens to the settings may measure it.
  const { dataset } = document.documentElement;
  dataset['text'] = String(next.textSize);
  dataset['appearance'] = next.appearance;
  settings.update(() => next);
  keyChoices.update(() => next.keys);
}
