import { AppError } from '../../core/model/errors.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { Edit } from '../../core/model/edit.ts';
import { inverseOf } from '../../core/model/edit.ts';
import type { CaptureRate, FrameRef } from '../../core/model/frame.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import type { ReadingKey } from '../../core/model/reading.ts';
import { sameReading } from '../../core/model/reading.ts';
import { CHECKPOINT_LABELS } from '../../core/model/words.ts';
import type { Checkpoint, View } from '../../core/model/words.ts';
import { ask } from '../api.ts';
import { idle } from '../tools/tool.ts';
import { app, setApp } from './app.ts';
import { createAutosave } from './autosave.ts';
import type { Write } from './autosave.ts';
import { redoing, undoing, withDone } from './history.ts';
import { tellDone, tellTrouble } from './messages.ts';
import { isBare, marksOn, withEdit } from './swing-edit.ts';

const autosave = createAutosave(
  (saving) => {
    setApp({ saving });
  },
  (error) => {
    if (!isRefused(error)) return tellTrouble(error, { label: 'Save again', run: retrySaving });
    autosave.drop();
    tellTrouble(error);
    showBook().catch(tellTrouble);
  },
);

/** What the book will not take, now or later: the view of another clip, say, or a mark on a clip that was removed. */
function isRefused(error: unknown): boolean {
  return error instanceof AppError && (error.code === 'bad-request' || error.code === 'no-such-record');
}

/** Shows the open swing as it stands in the book, after a change was refused. */
async function showBook(): Promise<void> {
  const { swing: open } = app.get();
  if (open === null) return;
  const read = await readSettled(async () => {
    const swing = await ask('swing/open', { id: open.swing.id });
    return { swing, history: await ask('edit/list', { lessonId: swing.lesson.id }) };
  });
  app.update((state) => (state.swing?.swing.id === open.swing.id ? { ...state, ...read } : state));
}

export function retrySaving(): void {
  autosave.retry();
}

/**
 * Settles when all that was changed has been written. What could not be is tried once more; where it still cannot be, that
 * has been told, and `cancelled` is thrown: nothing may leave or read the swing without it.
 */
export async function settleWrites(): Promise<void> {
  await autosave.settled();
  if (autosave.waiting() === 0) return;
  autosave.retry();
  await autosave.settled();
  if (autosave.waiting() > 0) throw new AppError('cancelled', 'The latest changes are not saved yet.');
}

/** What `read` answers with once all is written; read anew where something was changed meanwhile. */
export async function readSettled<Read>(read: () => Promise<Read>): Promise<Read> {
  for (;;) {
    await settleWrites();
    const count = autosave.count();
    const found = await read();
    if (autosave.count() === count) return found;
  }
}

/** Shows the edit at once and writes it at once. */
function carryOut(edit: Edit, write: Write): void {
  app.update((state) => (state.swing === null ? state : { ...state, swing: withEdit(state.swing, edit) }));
  autosave.put(write);
}

function makeEdit(edit: Edit): void {
  carryOut(edit, () => ask('edit/make', edit));
  app.update((state) => ({ ...state, history: withDone(state.history, edit) }));
}

/** A clip of the open swing, with what every edit of it names. */
function openClip(
  clipId: string,
): { readonly clip: BookClip; readonly of: { swingId: string; clipId: string } } | null {
  const { swing } = app.get();
  const clip = swing?.clips.find((entry) => entry.id === clipId);
  return swing === null || clip === undefined ? null : { clip, of: { swingId: swing.swing.id, clipId } };
}

/** Keeps new marks of one frame. */
export function keepMarks(clipId: string, after: FrameMarks): void {
  const open = openClip(clipId);
  if (open !== null) makeEdit({ kind: 'marks', ...open.of, before: marksOn(open.clip, after.frame), after });
}

/** Names a frame, or (index null) takes the name away. */
export function nameFrame(clipId: string, checkpoint: Checkpoint, index: number | null): void {
  const open = openClip(clipId);
  if (open === null) return;
  const shown = index === null ? undefined : app.get().indexes[clipId]?.frames[index];
  if (index !== null && shown === undefined) return;
  const after = index === null || shown === undefined ? null : { index, pts: shown.pts, ticks: shown.ticks };
  const before = open.clip.checkpoints[checkpoint] ?? null;
  if (before?.index === after?.index) return;
  makeEdit({ kind: 'checkpoint', ...open.of, checkpoint, before, after });
  if (before !== null && after !== null) offerMarks(open.clip, CHECKPOINT_LABELS[checkpoint], before, after);
}

/** Marks belong to their frame. When a name moves on, the coach is asked whether they are to stand on the new frame too. */
function offerMarks(clip: BookClip, label: string, before: FrameRef, after: FrameRef): void {
  const left = marksOn(clip, before);
  if (isBare(left) || !isBare(marksOn(clip, after))) return;
  const frame = { index: after.index, pts: after.pts };
  const shapes = left.shapes.map((shape) => ({ ...shape, id: crypto.randomUUID() }));
  const text = `${label} is now frame ${String(after.index)}. What is marked on frame ${String(before.index)} stays there.`;
  tellDone(text, { label: 'Copy it here', run: () => keepMarks(clip.id, { frame, points: left.points, shapes }) });
}

export function setCaptureRate(clipId: string, after: CaptureRate | null): void {
  const open = openClip(clipId);
  if (open !== null) makeEdit({ kind: 'capture-rate', ...open.of, before: open.clip.captureRate, after });
}

/** Says where the camera stood; nothing happens while the swing has another clip of that view. */
export function setClipView(clipId: string, after: View): void {
  const open = openClip(clipId);
  const isTaken = app.get().swing?.clips.some((clip) => clip.view === after) ?? true;
  if (open !== null && !isTaken) makeEdit({ kind: 'view', ...open.of, before: open.clip.view, after });
}

/** Puts a reading on the stills, or takes it off again. */
export function setPinned(reading: ReadingKey, pinned: boolean): void {
  const { swing } = app.get();
  if (swing === null) return;
  const { id, aspect, view, checkpoint } = reading;
  const others = swing.pins.filter((key) => !sameReading(key, reading));
  const after = pinned ? [...others, { id, aspect, view, checkpoint }] : others;
  makeEdit({ kind: 'pins', swingId: swing.swing.id, before: swing.pins, after });
}

/** Takes the latest edit of the lesson back. Answers with the edit, or null when there is none. */
export function undo(): Edit | null {
  return step('undo');
}

/** Makes the edit again that was taken back last. */
export function redo(): Edit | null {
  return step('redo');
}

function step(direction: 'undo' | 'redo'): Edit | null {
  const { history, swing } = app.get();
  const next = direction === 'undo' ? undoing(history) : redoing(history);
  if (next === null || swing === null) return null;
  const lessonId = swing.lesson.id;
  const name = direction === 'undo' ? 'edit/undo' : 'edit/redo';
  carryOut(direction === 'undo' ? inverseOf(next.edit) : next.edit, () => ask(name, { lessonId }));
  setApp({ history: next.history });
  showEdited(next.edit);
  return next.edit;
}

/** On the bench, the frame whose marks changed comes into sight, so that nothing changes unseen. */
function showEdited(edit: Edit): void {
  app.update((state) => {
    if (state.bench === null || edit.kind !== 'marks' || state.swing?.swing.id !== edit.swingId) return state;
    const index = edit.after.frame.index;
    const same = state.bench.clipId === edit.clipId && state.bench.index === index;
    const picture = same ? state.bench.picture : 'coming';
    // A press that is held belongs to the frame that it was made on.
    const tool = same ? state.bench.tool : idle(state.bench.tool.tool);
    const shown = { clipId: edit.clipId, index, picture, tool };
    return { ...state, bench: { ...state.bench, ...shown, draft: null, selected: null, shownReading: null } };
  });
}
