import { showUnits } from '../../../core/measure/words/shown-units.ts';
import { USUAL_SETTINGS } from '../../../core/model/settings.ts';
import type { Settings } from '../../../core/model/settings.ts';
import { ask } from '../../api.ts';
import { keyChoices } from './key-choices.ts';
import { createSavedWhole } from './saved-whole.ts';

const kept = createSavedWhole<Settings>({
  row: 'settings',
  initial: USUAL_SETTINGS,
  read: async () => {
    const { settings: whole, trouble } = await ask('settings/read', null);
    return { whole, trouble };
  },
  write: (whole) => ask('settings/write', whole),
  prepare({ textSize, appearance, keys, units }) {
    // Before anything is written anew with them.
    showUnits(units);
    // First what the page is laid out by: who listens to the settings may measure it.
    const { dataset } = document.documentElement;
    dataset['text'] = String(textSize);
    dataset['appearance'] = appearance;
    keyChoices.update(() => keys);
  },
});

/** What the coach chose for the program itself. */
export const settings = kept.shown;

/** Reads the settings at start and puts them to use. */
export const readSettings = (): Promise<void> => kept.read();

/** Puts other settings to use at once, and keeps them. */
export function changeSettings(part: Partial<Settings>): void {
  kept.change((before) => ({ ...before, ...part }));
}
