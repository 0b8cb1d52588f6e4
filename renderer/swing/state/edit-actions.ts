import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { Edit, EditWrite } from '../../../core/model/edit.ts';
import { continuedEdit, inverseOf } from '../../../core/model/edit.ts';
import type { CaptureRate, FrameRef } from '../../../core/model/frame.ts';
import type { LessonPage } from '../../../core/model/lesson-page.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import type { ReadingKey } from '../../../core/model/reading.ts';
import { sameReading } from '../../../core/model/reading.ts';
import type { TalkEdit } from '../../../core/model/talk.ts';
import { CHECKPOINT_LABELS } from '../../../core/model/words.ts';
import type { Checkpoint, View } from '../../../core/model/words.ts';
import { ask } from '../../api.ts';
import { idle } from '../../tools/tool.ts';
import { app, setApp } from '../../shell/state/app-state.ts';
import { settleAutosave } from '../../shell/state/autosave.ts';
import { bookChanged, readUnchanged } from '../../shell/state/book-changes.ts';
import { redoing, undoing, withContinued, withDone } from './history.ts';
import { tellDone, tellTrouble } from '../../shell/state/messages.ts';
import { createPlace } from '../../shell/state/place.ts';
import { createSavedRow } from '../../shell/state/saved-rows.ts';
import { isBare, marksOn, withEdit } from './swing-edit.ts';

const autosave = createSavedRow('edits', {
  report: (saving) => setApp({ saving }),
  refused(error) {
    tellTrouble(error);
    showBook().catch(tellTrouble);
  },
});

/** What is on screen of the open swing and its lesson. Whoever opens, reads again or leaves it asks here. */
export const openPlace = createPlace();

/** Shows the open swing as it stands in the book, after a change was refused. */
async function showBook(): Promise<void> {
  const { swing: open } = app.get();
  if (open === null) return;
  await openPlace.fillAgain(
    () =>
      readSettled(async () => {
        const swing = await ask('swing/open', { id: open.swing.id });
        return { swing, history: await ask('edit/list', { lessonId: swing.lesson.id }) };
      }),
    setApp,
  );
}

/**
 * Settles when all that was changed has been written. What could not be is tried once more; where it still cannot be, that
 * has been told, and `cancelled` is thrown: nothing may leave or read the swing without it.
 */
export async function settleWrites(): Promise<void> {
  await settleAutosave(autosave);
}

/** What `read` answers with once all is written; read anew where something was changed meanwhile. */
export function readSettled<Read>(read: () => Promise<Read>): Promise<Read> {
  return readUnchanged(settleWrites, read);
}

/** Shows the edit at once and writes it at once. */
function carryOut(edit: Edit, write: EditWrite): void {
  bookChanged();
  app.update((state) => (state.swing === null ? state : { ...state, swing: withEdit(state.swing, edit) }));
  autosave.put(() => ask('edit/write', write));
}

function makeEdit(edit: Edit): void {
  held = null;
  carryOut(edit, { does: 'make', edit });
  app.update((state) => ({ ...state, history: withDone(state.history, edit) }));
}

/** A key is still held, or pressed in a row, as long as no more than this lies between two changes, ms. */
const HELD = 1000;

/** The row of small changes that a key is making: of what, up to which edit of the history, and when. */
let held: { readonly of: string; readonly edit: Edit; readonly at: number } | null = null;

/** A change that goes on with the one before, where a key makes a row of them, is one edit with it: one write, one step back. */
function makeHeldEdit(of: string, edit: Edit): void {
  const before = held;
  const at = performance.now();
  const isLast = before !== null && app.get().history.done.at(-1) === before.edit;
  const both = isLast && before.of === of && at - before.at < HELD ? continuedEdit(before.edit, edit) : null;
  if (both === null) {
    makeEdit(edit);
    held = { of, edit, at };
    return;
  }
  carryOut(edit, { does: 'continue', edit });
  app.update((state) => ({ ...state, history: withContinued(state.history, both) }));
  held = { of, edit: both, at };
}

/** A clip of the open swing, with what every edit of it names. */
function openClip(
  clipId: string,
): { readonly clip: BookClip; readonly of: { swingId: string; clipId: string } } | null {
  const { swing } = app.get();
  const clip = swing?.clips.find((entry) => entry.id === clipId);
  return swing === null || clip === undefined ? null : { clip, of: { swingId: swing.swing.id, clipId } };
}

/** Keeps new marks of one frame. `heldOn`: the mark that a key moves, which may be held; its steps are one edit. */
export function keepMarks(clipId: string, after: FrameMarks, heldOn: string | null = null): void {
  const open = openClip(clipId);
  if (open === null) return;
  const edit: Edit = { kind: 'marks', ...open.of, before: marksOn(open.clip, after.frame), after };
  if (heldOn === null) makeEdit(edit);
  else makeHeldEdit(heldOn, edit);
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
  // What stands as proposed is nobody's own, and is proposed anew (bench/state/follow-moved-names.ts).
  if (
    left.shapes.length === 0 &&
    Object.values(left.points).every(({ guess, proposed }) => guess !== undefined && proposed !== undefined)
  )
    return tellDone(say`${label} is now frame ${String(after.index)}. Its points are looked for there anew.`);
  // Proposed they were on the other frame.
  const points = Object.fromEntries(
    Object.entries(left.points).map(([id, { x, y, hidden, guess }]) => [
      id,
      guess === undefined ? { x, y, hidden } : { x, y, hidden, guess },
    ]),
  );
  const shapes = left.shapes.map((shape) => ({ ...shape, id: crypto.randomUUID() }));
  const text = say`${label} is now frame ${String(after.index)}. Your marks are still on frame ${String(before.index)}.`;
  tellDone(text, {
    label: say`Copy them here`,
    run: () => keepMarks(clip.id, { frame, points, shapes }),
    waits: true,
  });
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

/** Keeps the lesson page. `heldOn`: the field that is typed in; what is typed in a row is one edit. */
export function keepPage(after: LessonPage, heldOn: string | null = null): void {
  const { swing } = app.get();
  if (swing === null) return;
  const edit: Edit = { kind: 'page', swingId: swing.swing.id, before: swing.page, after };
  if (heldOn === null) makeEdit(edit);
  else makeHeldEdit(heldOn, edit);
}

/** Puts something right in the talk-through. */
export function changeTalk(after: TalkEdit): void {
  const { swing } = app.get();
  if (swing !== null) makeEdit({ kind: 'talk', swingId: swing.swing.id, before: null, after });
}

/** Keeps whether consent was given for what goes out of the lesson. */
export function setConsent(after: boolean): void {
  const { swing } = app.get();
  if (swing === null) return;
  makeEdit({ kind: 'consent', swingId: swing.swing.id, before: swing.lesson.consent === true, after });
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
  held = null;
  const write = { does: direction, lessonId: swing.lesson.id, edit: next.edit } as const;
  carryOut(direction === 'undo' ? inverseOf(next.edit) : next.edit, write);
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
