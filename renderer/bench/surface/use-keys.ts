import { useEffect } from 'react';
import { isShown } from '../../canvas/shown-picture.ts';
import { COMMANDS } from '../../shell/commands.ts';
import type { Command } from '../../shell/commands.ts';
import { app } from '../../shell/state/app-state.ts';
import { keysOf, nameOfKey } from '../../shell/state/key-choices.ts';
import { nudgeOf } from '../../tools/nudge.ts';
import type { Hand } from './hand.ts';

/** Where keys belong to what has the focus: typing, choosing from a list, a dialog. */
export const TYPING = 'input:not([type="range"], [type="checkbox"], [type="radio"]), textarea, select, [role="dialog"]';
/** These press a focused button, and open what is folded. */
const PRESSING = new Set(['Enter', ' ']);

/** Keys of a surface. The tool in hand has first say; what it has no use for is a command. */
export function useKeys(hand: Hand): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const isIn = (kind: string) => event.target instanceof Element && event.target.closest(kind) !== null;
      if (event.defaultPrevented || isIn(TYPING)) return;
      if (PRESSING.has(event.key) && isIn('button, summary, a, label, input')) return;
      // A held key waits for the picture of each frame: a run passes none over, it only gets slower.
      const { bench, comparing } = app.get();
      const at = bench ?? comparing;
      const isStepping = event.repeat && commandFor(event)?.group === 'Frames';
      const waits = isStepping && at !== null && !isShown(at.clipId, at.index);
      if (waits || carryOut(event, hand)) event.preventDefault();
    };
    // A button that the pointer pressed keeps the focus, and would take an Enter that is meant for the picture.
    const onPressingKey = (event: KeyboardEvent): void => {
      const target = event.target;
      if (!PRESSING.has(event.key) || !(target instanceof HTMLElement) || target.matches(':focus-visible')) return;
      if (target.closest(TYPING) !== null || target.closest('button') === null || !carryOut(event, hand)) return;
      event.preventDefault();
      event.stopPropagation();
    };
    window.addEventListener('keydown', onPressingKey, true);
    window.addEventListener('keydown', onKey);
    return () => {
      window.removeEventListener('keydown', onPressingKey, true);
      window.removeEventListener('keydown', onKey);
    };
  }, [hand]);
}

/** Whether text on the page is picked out: copying means that then. */
export function isTextSelected(): boolean {
  return window.getSelection()?.isCollapsed === false;
}

function commandFor(event: KeyboardEvent): Command | null {
  const key = nameOfKey(event);
  return COMMANDS.find((command) => keysOf(command).includes(key)) ?? null;
}

/** Answers whether the key meant something. */
function carryOut(event: KeyboardEvent, hand: Hand): boolean {
  const { key } = event;
  const isPlain = !event.ctrlKey && !event.metaKey && !event.altKey;
  if (isPlain && key === 'Escape') return hand.send({ type: 'cancel' }) || hand.escape();
  if (isPlain && hand.send({ type: 'key', key })) return true;
  const command = commandFor(event);
  if (command === null || (command.id === 'copy-still' && isTextSelected())) return false;
  const nudge = nudgeOf(command.id);
  if (nudge !== null) hand.send({ type: 'nudge', by: nudge.by });
  else if (!hand.allows(command.id)) return false;
  else if (!event.repeat || command.repeats === true) command.run();
  return true;
}
