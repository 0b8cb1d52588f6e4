import { say } from '../../../core/model/say.ts';
import type { PartKept } from '../../../core/model/book.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { frameWithPts } from '../../../core/time/frame-table.ts';
import { numbersDiffer } from '../../../core/time/settle-index.ts';
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
  const counts = await readAnew(clipId, clipId, (bench, before, now) => onSamePicture(bench, clipId, before, now));
  if (counts === null) return;
  const { now, counted } = counts;
  tellDone(
    say`Every frame of the clip was read: it has ${String(now)}, not ${String(counted)}. What you named and marked stayed on its picture.`,
  );
}

/**
 * Takes over that a clip has a file of its own. Where it had to begin `shift` frames earlier it has another id; the bench
 * stays on the picture it shows.
 */
export async function takeOverKept(clipId: string, { id, shift }: PartKept): Promise<void> {
  bookChanged();
  await readAnew(clipId, id, (bench) =>
    bench.clipId === clipId ? atFrame({ ...bench, clipId: id }, bench.index + shift) : bench,
  );
}

/**
 * Reads a clip's table anew, with all that names its frames, and puts the bench on the frame it has to show now. Answers how
 * many frames there are and were; null where the clip is not open any more.
 */
async function readAnew(
  clipId: string,
  id: string,
  benchNow: (bench: BenchState, before: ClipIndex, now: ClipIndex) => BenchState,
): Promise<{ readonly now: number; readonly counted: number } | null> {
  // A table that is being read is of before.
  placeOf(clipId).leave();
  const [isOpen, isThen] = [openPlace.holds(), thenPlace.holds()];
  // Changes under way name frames by their old numbers.
  const read = await readSettled(async () => {
    const { swing, then } = app.get();
    const index = await ask('clip/index', { id });
    const again = swing === null ? null : await ask('swing/open', { id: swing.swing.id });
    // Edits name frames too, and were given their new numbers with the others.
    const history = again === null ? null : await ask('edit/list', { lessonId: again.lesson.id });
    const thenAgain = then === null ? null : await ask('swing/open', { id: then.swing.id });
    return { index, again, history, thenAgain };
  });
  const before = app.get().indexes[clipId];
  // Closed meanwhile: what is opened from now on is read with its new numbers.
  if (before === undefined) return null;
  const { index, again, history, thenAgain } = read;
  // Where no number is another, what is made of the frames stays.
  const isSame = !numbersDiffer(before.frames, index.frames);
  app.update((state) => ({
    ...state,
    indexes: { ...state.indexes, [id]: isSame ? { ...index, frames: before.frames } : index },
    ...(isOpen() ? { swing: again, history: history ?? state.history } : {}),
    ...(isThen() ? { then: thenAgain } : {}),
    bench: state.bench === null ? null : benchNow(state.bench, before, index),
  }));
  return { now: index.frames.length, counted: before.frames.length };
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

function onSamePicture(bench: BenchState, clipId: string, before: ClipIndex, now: ClipIndex): BenchState {
  const pts = bench.clipId === clipId ? before.frames[bench.index]?.pts : undefined;
  return pts === undefined ? bench : atFrame(bench, frameWithPts(now, pts) ?? 0);
}

function atFrame(bench: BenchState, index: number): BenchState {
  return index === bench.index ? bench : { ...bench, index, picture: 'coming' };
}
