import type { BookClip } from '../../core/model/book.ts';
import type { FrameRef } from '../../core/model/frame.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import { CHECKPOINT_LABELS } from '../../core/model/words.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { ask } from '../api.ts';
import { app, setApp } from './app.ts';
import { createAutosave } from './autosave.ts';
import type { Write } from './autosave.ts';
import { redoing, undoing, withDone } from './history.ts';
import { tellDone, tellTrouble } from './messages.ts';
import { inverseOf, isBare, marksOn, withEdit } from './swing-edit.ts';
import type { SwingEdit } from './swing-edit.ts';

const autosave = createAutosave(
  (saving) => {
    setApp({ saving });
  },
  (error) => {
    tellTrouble(error, { label: 'Save again', run: retrySaving });
  },
);

export function retrySaving(): void {
  autosave.retry();
}

/** Settles when all that was changed has been written (or could not be, which has been told). */
export function settleWrites(): Promise<void> {
  return autosave.settled();
}

function writeOf(edit: SwingEdit): Write {
  const { clipId } = edit;
  if (edit.kind === 'marks') {
    const marks = edit.after;
    const key = `marks ${clipId} ${String(marks.frame.index)}`;
    return { key, run: () => ask('marks/save', { clipId, marks }) };
  }
  const { checkpoint, after } = edit;
  const frame = after === null ? null : { index: after.index, pts: after.pts };
  return { key: `checkpoint ${clipId} ${checkpoint}`, run: () => ask('checkpoint/set', { clipId, checkpoint, frame }) };
}

/** Shows the edit at once and writes it at once. */
function carryOut(edit: SwingEdit): void {
  app.update((state) => (state.swing === null ? state : { ...state, swing: withEdit(state.swing, edit) }));
  autosave.put(writeOf(edit));
}

function makeEdit(edit: SwingEdit): void {
  carryOut(edit);
  app.update((state) => ({ ...state, history: withDone(state.history, edit) }));
}

/** Keeps new marks of one frame. */
export function keepMarks(clipId: string, after: FrameMarks): void {
  const clip = app.get().swing?.clips.find((entry) => entry.id === clipId);
  if (clip === undefined) return;
  makeEdit({ kind: 'marks', clipId, before: marksOn(clip, after.frame), after });
}

/** Names a frame, or (index null) takes the name away. */
export function nameFrame(clipId: string, checkpoint: Checkpoint, index: number | null): void {
  const { swing, indexes } = app.get();
  const clip = swing?.clips.find((entry) => entry.id === clipId);
  if (clip === undefined) return;
  const shown = index === null ? undefined : indexes[clipId]?.frames[index];
  if (index !== null && shown === undefined) return;
  const after = index === null || shown === undefined ? null : { index, pts: shown.pts, ticks: shown.ticks };
  const before = clip.checkpoints[checkpoint] ?? null;
  makeEdit({ kind: 'checkpoint', clipId, checkpoint, before, after });
  if (before !== null && after !== null) offerMarks(clip, CHECKPOINT_LABELS[checkpoint], before, after);
}

/** Marks belong to their frame. When a name moves on, the coach is asked whether they are to stand on the new frame too. */
function offerMarks(clip: BookClip, label: string, before: FrameRef, after: FrameRef): void {
  const left = marksOn(clip, before);
  if (before.index === after.index || isBare(left) || !isBare(marksOn(clip, after))) return;
  const frame = { index: after.index, pts: after.pts };
  const shapes = left.shapes.map((shape) => ({ ...shape, id: crypto.randomUUID() }));
  const text = `${label} is now frame ${String(after.index)}. What is marked on frame ${String(before.index)} stays there.`;
  tellDone(text, { label: 'Copy it here', run: () => keepMarks(clip.id, { frame, points: left.points, shapes }) });
}

export function undo(): void {
  const step = undoing(app.get().history);
  if (step === null) return;
  carryOut(inverseOf(step.edit));
  setApp({ history: step.history });
  showEdited(step.edit);
}

export function redo(): void {
  const step = redoing(app.get().history);
  if (step === null) return;
  carryOut(step.edit);
  setApp({ history: step.history });
  showEdited(step.edit);
}

/** On the bench, the frame whose marks changed comes into sight, so that nothing changes unseen. */
function showEdited(edit: SwingEdit): void {
  app.update((state) => {
    if (state.bench === null || edit.kind !== 'marks') return state;
    const index = edit.after.frame.index;
    const same = state.bench.clipId === edit.clipId && state.bench.index === index;
    const exact = same && state.bench.exact;
    return {
      ...state,
      bench: { ...state.bench, clipId: edit.clipId, index, exact, draft: null, selected: null, shownReading: null },
    };
  });
}
