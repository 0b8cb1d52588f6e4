import type { Edit } from '../../core/model/edit.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { frameWithPts } from '../../core/time/frame-table.ts';
import type { ClipSettled } from '../../electron/ipc/contract.ts';
import { ask, onClipSettled } from '../api.ts';
import { app, setApp } from './app.ts';
import type { BenchState } from './app.ts';
import { readSettled } from './edit-actions.ts';
import { emptyHistory } from './history.ts';
import { tellTrouble } from './messages.ts';

/**
 * Follows the frame tables of clips as the first pass over each settles them; returns how to stop. `forget` is told of
 * each clip whose frames have other numbers now, before anything is drawn by them.
 */
export function followSettling(forget: (clipId: string) => void): () => void {
  return onClipSettled((settled) => {
    if (settled.changed) forget(settled.clipId);
    takeOver(settled).catch(tellTrouble);
  });
}

/** Takes the settled table over. Where numbers changed, the bench stays on the picture it shows. */
async function takeOver({ clipId, changed, damaged }: ClipSettled): Promise<void> {
  const { indexes, swing, then } = app.get();
  const before = indexes[clipId];
  if (before === undefined) return;
  if (!changed) {
    if (damaged > 0) setApp({ indexes: { ...indexes, [clipId]: await ask('clip/index', { id: clipId }) } });
    return;
  }
  // Changes under way name frames by their old numbers.
  const { index, again, history, thenAgain } = await readSettled(async () => {
    const index = await ask('clip/index', { id: clipId });
    const again = swing === null ? null : await ask('swing/open', { id: swing.swing.id });
    const lesson = again?.lesson.id ?? null;
    // Edits name frames too, and were given their new numbers with the others.
    const history = lesson === null ? emptyHistory<Edit>() : await ask('edit/list', { lessonId: lesson });
    const thenAgain = then === null ? null : await ask('swing/open', { id: then.swing.id });
    return { index, again, history, thenAgain };
  });
  app.update((state) => {
    const indexes = { ...state.indexes, [clipId]: index };
    // The coach may have gone elsewhere meanwhile; what is opened from now on is read with its new numbers.
    if (state.swing?.swing.id !== swing?.swing.id || state.then?.swing.id !== then?.swing.id)
      return { ...state, indexes };
    return {
      ...state,
      ...{ indexes, swing: again, then: thenAgain, bench: onSamePicture(state.bench, clipId, before, index) },
      history,
      message: {
        kind: 'done',
        text: `Every frame of the clip was read: it has ${String(index.frames.length)}, not ${String(before.frames.length)}. What you named and marked stayed on its picture.`,
        nextStep: null,
      },
    };
  });
}

function onSamePicture(bench: BenchState | null, clipId: string, before: ClipIndex, now: ClipIndex): BenchState | null {
  const pts = bench?.clipId === clipId ? before.frames[bench.index]?.pts : undefined;
  if (bench === null || pts === undefined) return bench;
  const place = frameWithPts(now, pts) ?? 0;
  return place === bench.index ? bench : { ...bench, index: place, picture: 'coming' };
}
