import { createStore } from './store.ts';

/** Keys that the coach chose, by command; commands that are not named here have their usual ones. */
export type KeyChoices = Readonly<Record<string, readonly string[]>>;

export const keyChoices = createStore<KeyChoices>({});

/** What a key press is called: "m", "+", "Shift+ArrowLeft", "Mod+z". Mod is Ctrl, on a Mac Cmd. */
export function nameOfKey(event: Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey'>): string {
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  // Of a sign such as + or ? the keyboard's layout says whether Shift belongs to it.
  const hasShift = event.shiftKey && (event.key.length > 1 || /^\p{Letter}$/u.test(key));
  const parts = [event.ctrlKey || event.metaKey ? 'Mod' : '', event.altKey ? 'Alt' : '', hasShift ? 'Shift' : '', key];
  return parts.filter((part) => part !== '').join('+');
}

/** The keys of a command, usual or chosen. */
export function keysOf(command: { readonly id: string; readonly keys: readonly string[] }): readonly string[] {
  return keyChoices.get()[command.id] ?? command.keys;
}
