import { say } from '../../../core/model/say.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { frameWithPts } from '../../../core/time/frame-table.ts';
import type { ClipSettled } from '../../../electron/ipc/contract.ts';
import { ask, onClipSettled } from '../../api.ts';
import { app } from '../../shell/state/app-state.ts';
import type { BenchState } from '../../shell/state/app-state.ts';
import { bookChanged } from '../../shell/state/book-changes.ts';
import { openPlace, readSettled } from './edit-actions.ts';
import { tellDone, tellTrouble } from '../../shell/state/messages.ts';
import { createPlace } from '../../shell/state/place.ts';
import type { Place } from '../../shell/state/place.ts';
import { thenPlace } from './swing-actions.ts';

/**
 * Follows the frame tables of clips as the first pass over each settles them; returns how to stop. `forget` is told of
 * each clip whose frames have other numbers now, before anything is drawn by them.
 */
export function followSettling(forget: (clipId: string) => void): () => void {
  return onClipSettled((settled) => {
    if (settled.changed) {
      // Whatever is being read of the book may have old numbers in it.
      bookChanged();
      forget(settled.clipId);
    }
    takeOver(settled).catch(tellTrouble);
  });
}

/** Takes the settled table over. Where numbers changed, the bench stays on the picture it shows. */
async function takeOver({ clipId, changed, damaged }: ClipSettled): Promise<void> {
  if (app.get().indexes[clipId] === undefined) return;
  if (!changed) {
    if (damaged > 0)
      await placeOf(clipId).fill(
        () => ask('clip/index', { id: clipId }),
        (index) => showIndex(clipId, index),
      );
    return;
  }
  // A table that is being read is of before.
  placeOf(clipId).leave();
  const [isOpen, isThen] = [openPlace.holds(), thenPlace.holds()];
  // Changes under way name frames by their old numbers.
  const read = await readSettled(async () => {
    const { swing, then } = app.get();
    const index = await ask('clip/index', { id: clipId });
    const again = swing === null ? null : await ask('swing/open', { id: swing.swing.id });
    // Edits name frames too, and were given their new numbers with the others.
    const history = again === null ? null : await ask('edit/list', { lessonId: again.lesson.id });
    const thenAgain = then === null ? null : await ask('swing/open', { id: then.swing.id });
    return { index, again, history, thenAgain };
  });
  const before = app.get().indexes[clipId];
  // Closed meanwhile: what is opened from now on is read with its new numbers.
  if (before === undefined) return;
  const { index, again, history, thenAgain } = read;
  app.update((state) => ({
    ...state,
    indexes: { ...state.indexes, [clipId]: index },
    ...(isOpen() ? { swing: again, history: history ?? state.history } : {}),
    ...(isThen() ? { then: thenAgain } : {}),
    bench: onSamePicture(state.bench, clipId, before, index),
  }));
  const [now, counted] = [index.frames.length, before.frames.length];
  tellDone(
    say`Every frame of the clip was read: it has ${String(now)}, not ${String(counted)}. What you named and marked stayed on its picture.`,
  );
}

/** Where the frame table of each clip is shown. */
const places = new Map<string, Place>();

function placeOf(clipId: string): Place {
  const place = places.get(clipId) ?? createPlace();
  places.set(clipId, place);
  return place;
}

function showIndex(clipId: string, index: ClipIndex): void {
  app.update((state) =>
    state.indexes[clipId] === undefined ? state : { ...state, indexes: { ...state.indexes, [clipId]: index } },
  );
}

function onSamePicture(bench: BenchState | null, clipId: string, before: ClipIndex, now: ClipIndex): BenchState | null {
  const pts = bench?.clipId === clipId ? before.frames[bench.index]?.pts : undefined;
  if (bench === null || pts === undefined) return bench;
  const place = frameWithPts(now, pts) ?? 0;
  return place === bench.index ? bench : { ...bench, index: place, picture: 'coming' };
}
