import { useEffect } from 'react';
import { app } from './state/app-state.ts';
import { keysOf, nameOfKey } from './state/key-choices.ts';
import { goBack } from './state/go-back.ts';
import type { Route } from './state/route.ts';
import { COMMANDS } from './commands.ts';
import { isTextSelected, TYPING } from '../bench/surface/use-keys.ts';

/**
 * Undo, redo, recording and the list of keys by their keys on every page, and on the sheet the copy of a still; on the bench its own keys
 * see to that, and in a repeat check
 * there is nothing to take back. Esc leaves the goals and the lesson page.
 */
export function useUndoKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const { at } = app.get().route;
      if (event.defaultPrevented || ELSEWHERE.has(at)) return;
      if (event.target instanceof Element && event.target.closest(TYPING) !== null) return;
      const key = nameOfKey(event);
      const onGoals = at === 'goals';
      if ((onGoals || at === 'lesson page') && key === 'Escape') return goBack();
      const command = COMMANDS.find(({ id, ...each }) => isEverywhere(id) && keysOf({ id, ...each }).includes(key));
      // A lesson's edits are not taken back where nobody sees them.
      if (command === undefined || (onGoals && EDITS.has(command.id))) return;
      if (command.id === 'copy-still' && (at !== 'sheet' || isTextSelected())) return;
      event.preventDefault();
      if (!event.repeat || command.repeats === true) command.run();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}

/** Where keys are seen to by the page itself, or belong to a dialog. */
const ELSEWHERE: ReadonlySet<Route['at']> = new Set<Route['at']>([
  ...(['repeat check', 'bench', 'comparison', 'settings', 'help'] as const),
]);

const EDITS: ReadonlySet<string> = new Set(['undo', 'redo', 'copy-still']);

function isEverywhere(id: string): boolean {
  return EDITS.has(id) || id === 'record' || id === 'pause' || id === 'list-keys' || id === 'help';
}
