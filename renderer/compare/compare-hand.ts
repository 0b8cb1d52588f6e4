import { stopPlayback, togglePlayback } from '../bench/playback/state/playback.ts';
import type { Hand } from '../bench/surface/hand.ts';
import { COMMANDS } from '../shell/commands.ts';
import type { CommandGroup } from '../shell/commands.ts';
import { backTo } from '../shell/state/go-back.ts';

/** Then and now are looked at: frames, playing, the picture, how one lies to the other, and undo. Nothing is marked. */
const GROUPS: ReadonlySet<CommandGroup> = new Set<CommandGroup>([
  ...(['Frames', 'Picture', 'Comparison', 'Talk-through', 'Edit', 'Program'] as const),
]);
/** What of these only the bench has. */
const NOT_HERE: ReadonlySet<string> = new Set(['both-views', 'loupe', 'picture-readings']);

export const compareHand: Hand = {
  send: () => false,
  cancel: () => undefined,
  escape() {
    if (!stopPlayback()) backTo('sheet');
    return true;
  },
  tap: togglePlayback,
  allows: (id) => !NOT_HERE.has(id) && COMMANDS.some((command) => command.id === id && GROUPS.has(command.group)),
  held: () => null,
};
