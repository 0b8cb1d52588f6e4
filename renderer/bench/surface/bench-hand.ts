import type { PicturePoint } from '../../../core/model/mark.ts';
import { centre, reach } from '../../canvas/bench-view.ts';
import { app } from '../../shell/state/app-state.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import { stopPlayback, togglePlayback } from '../playback/state/playback.ts';
import { benchClip, cancelGesture, chooseTool, keptMarks, pointAskedFor, sendToTool } from '../state/bench-actions.ts';
import { startsFor } from '../state/starts.ts';
import type { Hand } from './hand.ts';

export const benchHand: Hand = {
  send(event) {
    // Who presses on the picture wants this one, and Esc ends a run before anything else: the run stops here.
    if ((event.type === 'down' || event.type === 'cancel') && stopPlayback()) return true;
    return sendToTool(event, reach(), centre());
  },
  cancel: cancelGesture,
  /** The gesture has ended and the selection was let go: the tool is put away. */
  escape() {
    if (app.get().bench?.tool.tool === 'move') return false;
    chooseTool('move');
    return true;
  },
  tap: togglePlayback,
  allows: () => true,
  held(state) {
    const { bench } = state;
    const kept = keptMarks(state);
    if (bench?.picture !== 'exact' || kept === null) return null;
    const { tool, selected } = bench;
    const isWanted = tool.tool !== 'move' || tool.name !== 'idle' || selected?.kind === 'point';
    return isWanted ? { tool, kept, selected, start: startAskedFor(state) } : null;
  },
};

/** Null outside of the guided run. */
function startAskedFor(state: AppState): PicturePoint | null {
  const clip = benchClip(state);
  if (clip === null || state.bench?.tool.tool !== 'points') return null;
  const asked = pointAskedFor(state);
  return asked === null ? null : (startsFor(clip, state.bench.index)[asked] ?? null);
}
