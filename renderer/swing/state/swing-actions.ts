import { say } from '../../../core/model/say.ts';
import type { BookClip, BookSwing, Clip } from '../../../core/model/book.ts';
import type { FrameSpan } from '../../../core/model/frame.ts';
import type { View } from '../../../core/model/words.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import type { ClipSummary } from '../../../core/time/clip-summary.ts';
import { ask, giveMemoryBack } from '../../api.ts';
import { app, setApp } from '../../shell/state/app-state.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import { bookChanged } from '../../shell/state/book-changes.ts';
import { readBook } from '../../book/state/book-actions.ts';
import { openBench } from '../../bench/state/bench-actions.ts';
import { openPlace, readSettled, redo, settleWrites, undo } from './edit-actions.ts';
import { emptyHistory } from './history.ts';
import { keepPart } from './keeping.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { lastStep } from './last-step.ts';
import { tellDone, tellTrouble } from '../../shell/state/messages.ts';
import { createPlace } from '../../shell/state/place.ts';
import { placeOf, withPlace } from '../../shell/state/route.ts';

/** The earlier swing beside the open one. */
export const thenPlace = createPlace();

/**
 * Opens the lesson sheet of a swing, which may still have to be made, beside what it was last compared with. Answers whether
 * it is open: not where the coach went elsewhere meanwhile.
 */
export async function openSwing(id: string | (() => Promise<string>)): Promise<boolean> {
  return openPlace.fill(
    async () => {
      const found = typeof id === 'string' ? id : await id();
      return readSettled(async () => ({ ...(await readSwing(found)), earlier: await readThen(found) }));
    },
    ({ swing, history, indexes, earlier }) => {
      thenPlace.leave();
      app.update((state) => ({
        ...state,
        route: withPlace(state.route, 'sheet'),
        swing,
        history,
        ...{ then: earlier.then, bench: null, comparing: null },
        ...withIndexes(state, { ...indexes, ...earlier.indexes }),
      }));
      prepare([...(earlier.then?.clips ?? []), ...swing.clips]);
    },
  );
}

type Indexes = AppState['indexes'];

/** What a swing was last compared with. Where that cannot be read the swing opens without it, and it is told. */
async function readThen(id: string): Promise<{ readonly then: BookSwing | null; readonly indexes: Indexes }> {
  try {
    const { thenId } = await ask('swing/then', { id });
    return thenId === null ? { then: null, indexes: {} } : await readEarlier(thenId);
  } catch (error) {
    tellTrouble(error);
    return { then: null, indexes: {} };
  }
}

async function readEarlier(id: string): Promise<{ readonly then: BookSwing; readonly indexes: Indexes }> {
  const then = await ask('swing/open', { id });
  return { then, indexes: await readIndexes(then.clips) };
}

/** A swing with all that the window keeps beside it. */
async function readSwing(
  id: string,
): Promise<Pick<AppState, 'history'> & { readonly swing: BookSwing; readonly indexes: Indexes }> {
  const swing = await ask('swing/open', { id });
  const indexes = await readIndexes(swing.clips);
  const history = await ask('edit/list', { lessonId: swing.lesson.id });
  return { swing, indexes, history };
}

/** The state's frame tables with newly read ones. */
function withIndexes(state: AppState, read: Indexes): Pick<AppState, 'indexes'> {
  return { indexes: { ...state.indexes, ...read } };
}

/**
 * Has the proxies of these clips made, where they are missing, and parts taken that are still coming. A clip whose file is
 * gone says so where it is shown.
 */
function prepare(clips: readonly BookClip[]): void {
  for (const clip of clips) {
    ask('clip/show', { id: clip.id }).catch(() => undefined);
    if (clip.coming === true) void keepPart(clip);
  }
}

/** The frame tables of clips that the window does not have yet. */
async function readIndexes(clips: readonly BookClip[]): Promise<Indexes> {
  const read: Record<string, ClipIndex> = {};
  for (const { id } of clips) if (app.get().indexes[id] === undefined) read[id] = await ask('clip/index', { id });
  return read;
}

/** Back to the book's page. */
export async function closeSwing(): Promise<void> {
  const isClosed = await openPlace.fill(settleWrites, () => {
    thenPlace.leave();
    const route = withPlace(app.get().route, 'book');
    setApp({ route, swing: null, then: null, bench: null, comparing: null, history: emptyHistory(), indexes: {} });
  });
  if (!isClosed) return;
  await ask('frames/rest', null);
  await readBook();
  giveMemoryBack();
}

/** Reads the open swing again, after a change that was made by the program (a clip came or went). */
export async function readSwingAgain(): Promise<void> {
  bookChanged();
  const { swing } = app.get();
  if (swing === null) return;
  await openPlace.fillAgain(
    () => readSettled(() => readSwing(swing.swing.id)),
    (again) => {
      const { indexes, ...read } = again;
      app.update((state) => ({ ...state, ...read, ...withIndexes(state, indexes) }));
      prepare(again.swing.clips);
    },
  );
}

/** Chooses the earlier swing to compare with, or none; the book remembers it for the open swing. */
export async function chooseThen(id: string | null): Promise<void> {
  const { swing } = app.get();
  const remember = async (): Promise<void> => {
    if (swing !== null) await ask('swing/compare', { id: swing.swing.id, thenId: id });
  };
  if (id === null) {
    thenPlace.leave();
    setApp({ then: null });
    return remember();
  }
  const isChosen = await thenPlace.fill(
    () => readSettled(() => readEarlier(id)),
    ({ then, indexes }) => {
      app.update((state) => ({ ...state, then, ...withIndexes(state, indexes) }));
      prepare(then.clips);
    },
  );
  if (isChosen) await remember();
}

/** Asks for a file; null when the coach closed the dialog. */
export async function chooseClipFile(): Promise<string | null> {
  return (await ask('clip/choose', null))?.path ?? null;
}

/** What a chosen file holds. */
export async function inspectClip(path: string): Promise<ClipSummary> {
  return ask('clip/look', { path });
}

export interface ImportChoice {
  readonly path: string;
  readonly view: View;
  readonly stored: 'copied' | 'linked';
  /** The frames to keep, or null for all. */
  readonly span: FrameSpan | null;
}

/** Brings a clip into the open swing and answers with it. */
export async function importClip(choice: ImportChoice): Promise<BookClip | null> {
  const { swing } = app.get();
  if (swing === null) return null;
  const swingId = swing.swing.id;
  const clip = await runJob(say`Reading the clip`, (jobId) => ask('clip/import', { jobId, swingId, ...choice }));
  await readSwingAgain();
  return app.get().swing?.clips.find((entry) => entry.id === clip.id) ?? null;
}

/** A part of a clip, and the swing of the lesson that it comes into; null: a new one. */
export interface PartToKeep {
  readonly span: FrameSpan;
  readonly swingId: string | null;
}

/**
 * Brings parts of one clip into swings of the open swing's lesson, one after the other; each that came in stays. They are
 * there at once and taken out of the clip meanwhile.
 */
export async function importSwings(
  clip: Pick<ImportChoice, 'path' | 'view'>,
  parts: readonly PartToKeep[],
  onAdded: () => void,
): Promise<void> {
  const open = app.get().swing?.swing.id;
  if (open === undefined) return;
  const added: Clip[] = [];
  try {
    for (const { span, swingId } of parts) {
      const into = { swingId: swingId ?? open, asNewSwing: swingId === null };
      const part = await runJob(say`Reading the clip`, (jobId) =>
        ask('clip/import', { jobId, ...into, ...clip, stored: 'copied', span }),
      );
      added.push(part);
      onAdded();
    }
  } finally {
    await readSwingAgain();
    await readBook();
    for (const part of added) void keepPart(part);
  }
}

/** Settles when the swing is open that was asked for last by `stepEdits`. */
let opening: Promise<void> = Promise.resolve();

/**
 * Takes an edit of the lesson back, or makes it again, and brings what changed into sight; one of another swing opens that
 * swing. Steps may follow one another quicker than swings open: the last one's swing is the one that stays.
 */
export async function stepEdits(direction: 'undo' | 'redo'): Promise<void> {
  const onBench = placeOf(app.get().route).at === 'bench';
  const edit = direction === 'undo' ? undo() : redo();
  if (edit === null) return;
  const show = async (): Promise<void> => {
    if (edit.swingId === app.get().swing?.swing.id) return;
    if (!(await openSwing(edit.swingId))) return;
    tellDone(say`That was a change in another swing of the lesson; it is open now.`);
    if (onBench && edit.kind === 'marks') openBench(edit.clipId, edit.after.frame.index);
  };
  opening = opening.then(show, show);
  await opening;
  lastStep.update(() => ({ edit }));
}

/** Asks where the file of a linked clip is now. */
export async function findFileAgain(id: string): Promise<void> {
  const path = await chooseClipFile();
  if (path === null) return;
  await runJob(say`Looking at the file`, (jobId) => ask('clip/relink', { jobId, id, path }));
  await readSwingAgain();
}
