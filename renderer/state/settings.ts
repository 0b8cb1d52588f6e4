import { USUAL_SETTINGS } from '../../core/model/settings.ts';
import type { Settings } from '../../core/model/settings.ts';
import { ask } from '../api.ts';
import { setApp } from './app.ts';
import { keyChoices } from './key-choices.ts';
import { tellTrouble } from './messages.ts';
import { createStore } from './store.ts';

/** What the coach chose for the program itself. */
export const settings = createStore<Settings>(USUAL_SETTINGS);

/** Reads the settings at start and puts them to use. */
export async function readSettings(): Promise<void> {
  const read = await ask('settings/read', null);
  putToUse(read.settings);
  if (read.trouble !== null) setApp({ message: { kind: 'trouble', text: read.trouble, nextStep: null } });
}

/** Puts other settings to use at once, and keeps them. */
export function changeSettings(part: Partial<Settings>): void {
  const next = { ...settings.get(), ...part };
  putToUse(next);
  ask('settings/write', next).catch(tellTrouble);
}

function putToUse(next: Settings): void {
  // First what the page is laid out by: who listens to the settings may measure it.
  const { dataset } = document.documentElement;
  dataset['text'] = String(next.textSize);
  dataset['appearance'] = next.appearance;
  settings.update(() => next);
  keyChoices.update(() => next.keys);
}
