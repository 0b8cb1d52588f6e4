import { useEffect } from 'react';
import { app } from '../state/app.ts';
import { keysOf, nameOfKey } from '../state/key-choices.ts';
import { repeatCheck } from '../state/repeat-check.ts';
import { COMMANDS } from './commands.ts';
import { TYPING } from './use-bench-keys.ts';

/** Undo, redo and the list of keys by their keys on every page; on the bench its own keys see to that, and in a repeat check there is nothing to take back. */
export function useUndoKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const { bench } = app.get();
      if (event.defaultPrevented || bench !== null || repeatCheck.get() !== null) return;
      if (event.target instanceof Element && event.target.closest(TYPING) !== null) return;
      const key = nameOfKey(event);
      const command = COMMANDS.find(({ id, ...each }) => isEverywhere(id) && keysOf({ id, ...each }).includes(key));
      if (command === undefined) return;
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
