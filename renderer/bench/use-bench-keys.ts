import { useEffect } from 'react';
import { centre, reach } from '../canvas/bench-view.ts';
import { isShown } from '../canvas/shown-picture.ts';
import { app } from '../shell/state/app-state.ts';
import { chooseTool, sendToTool } from './state/bench-actions.ts';
import { keysOf, nameOfKey } from '../shell/state/key-choices.ts';
import { stopPlayback } from './playback/state/playback.ts';
import { COMMANDS } from '../shell/commands.ts';
import type { Command } from '../shell/commands.ts';

/** Where keys belong to what has the focus: typing, choosing from a list, a dialog. */
export const TYPING = 'input:not([type="range"], [type="checkbox"], [type="radio"]), textarea, select, [role="dialog"]';
/** These press a focused button, and open what is folded. */
const PRESSING = new Set(['Enter', ' ']);

/** Keys of the bench. The tool in hand has first say; what it has no use for is a command. */
export function useBenchKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const isIn = (kind: string) => event.target instanceof Element && event.target.closest(kind) !== null;
      if (event.defaultPrevented || isIn(TYPING)) return;
      if (PRESSING.has(event.key) && isIn('button, summary, a, label, input')) return;
      // A held key waits for the picture of each frame: a run passes none over, it only gets slower.
      const { bench } = app.get();
      if (event.repeat && isStepping(event) && bench !== null && !isShown(bench.clipId, bench.index)) {
        event.preventDefault();
        return;
      }
      if (carryOut(event)) event.preventDefault();
    };
    // A button that the pointer pressed keeps the focus, and would take an Enter that is meant for the picture.
    const onPressingKey = (event: KeyboardEvent): void => {
      const target = event.target;
      if (!PRESSING.has(event.key) || !(target instanceof HTMLElement) || target.matches(':focus-visible')) return;
      if (target.closest(TYPING) !== null || target.closest('button') === null || !carryOut(event)) return;
      event.preventDefault();
      event.stopPropagation();
    };
    window.addEventListener('keydown', onPressingKey, true);
    window.addEventListener('keydown', onKey);
    return () => {
      window.removeEventListener('keydown', onPressingKey, true);
      window.removeEventListener('keydown', onKey);
    };
  }, []);
}

function isStepping(event: KeyboardEvent): boolean {
  return commandFor(event)?.group === 'Frames';
}

function commandFor(event: KeyboardEvent): Command | null {
  const key = nameOfKey(event);
  return COMMANDS.find((command) => keysOf(command).includes(key)) ?? null;
}

/** Answers whether the key meant something. */
function carryOut(event: KeyboardEvent): boolean {
  const { key } = event;
  const isPlain = !event.ctrlKey && !event.metaKey && !event.altKey;
  if (isPlain && key === 'Escape') return cancel();
  if (isPlain && sendToTool({ type: 'key', key }, reach(), centre())) return true;
  const command = commandFor(event);
  if (command === null) return false;
  if (!event.repeat || command.repeats === true) command.run();
  return true;
}

/** Esc ends a run or the gesture; then lets the selection go; then puts the tool away. */
function cancel(): boolean {
  if (stopPlayback()) return true;
  if (sendToTool({ type: 'cancel' }, reach(), centre())) return true;
  if (app.get().bench?.tool.tool === 'move') return false;
  chooseTool('move');
  return true;
}
