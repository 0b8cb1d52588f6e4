import { useEffect } from 'react';
import { app } from './state/app-state.ts';
import { keysOf, nameOfKey } from './state/key-choices.ts';
import { repeatCheck } from '../repeat/state/repeat-check.ts';
import { patternOpen } from '../pattern/state/pattern.ts';
import { COMMANDS } from './commands.ts';
import { TYPING } from '../bench/use-bench-keys.ts';

/** Undo, redo and the list of keys by their keys on every page; on the bench its own keys see to that, and in a repeat check there is nothing to take back. */
export function useUndoKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const { bench } = app.get();
      const onPattern = patternOpen.get();
      if (event.defaultPrevented || repeatCheck.get() !== null || (bench !== null && !onPattern)) return;
      if (event.target instanceof Element && event.target.closest(TYPING) !== null) return;
      const key = nameOfKey(event);
      const command = COMMANDS.find(({ id, ...each }) => isEverywhere(id) && keysOf({ id, ...each }).includes(key));
      // A lesson's edits are not taken back where nobody sees them.
      if (command === undefined || (onPattern && command.id !== 'list-keys')) return;
      event.preventDefault();
      command.run();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}

function isEverywhere(id: string): boolean {
  return id === 'undo' || id === 'redo' || id === 'list-keys';
}
