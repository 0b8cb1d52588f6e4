import type { Hand } from '../bench/surface/hand.ts';
import { centre, reach } from '../canvas/bench-view.ts';
import { placedHere } from '../tools/repeat-tool.ts';
import type { ToolEvent } from '../tools/tool.ts';
import { askToLeave, sendToNaming, sendToRepeat, stageOf } from './state/repeat-check.ts';

/** Of the bench's commands those that change how the picture is seen; the rest would lead away from the frame. */
const SEEING = new Set(['zoom-in', 'zoom-out', 'fit', 'one-to-one', 'loupe', 'lift-shadows']);

const send = (event: ToolEvent): boolean => sendToRepeat(event, reach(), centre());

export const repeatHand: Hand = {
  send,
  cancel: () => void send({ type: 'cancel' }),
  // Esc ends a gesture or lets a point go first.
  escape() {
    askToLeave(true);
    return true;
  },
  allows: (command) => SEEING.has(command),
  held(state) {
    const stage = stageOf(state);
    if (stage?.name !== 'placing' || !stage.exact) return null;
    const { run } = stage;
    const kept = { frame: { index: 0, pts: 0 }, points: placedHere(run), shapes: [] };
    return { tool: run.tool, kept, selected: run.selected, start: null };
  },
};

/** Nothing is marked while frames are named: keys step and choose, the pointer moves the picture. */
export const namingHand: Hand = {
  send: (event) => event.type === 'key' && sendToNaming(event.key),
  cancel: () => undefined,
  escape() {
    askToLeave(true);
    return true;
  },
  allows: (command) => SEEING.has(command),
  held: () => null,
};
