import { say } from '../../../core/model/say.ts';
import type { RecordedTalk } from '../../../electron/ipc/contract.ts';
import type { BookSwing } from '../../../core/model/book.ts';
import type { Talk } from '../../../core/model/talk.ts';
import type { FilmShape } from '../../../core/talk/film-plan.ts';
import { drawnMarks, stateAt } from '../../../core/talk/talk-state.ts';
import { talkLength } from '../../../core/talk/talk-time.ts';
import { closingOf, wholeTalk } from '../../../core/talk/whole-talk.ts';
import { ask } from '../../api.ts';
import { openBench } from '../../bench/state/bench-actions.ts';
import { stopPlayback } from '../../bench/playback/state/playback.ts';
import { app, setApp } from '../../shell/state/app-state.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { attempt, sayTrouble, tellDone, tellTrouble } from '../../shell/state/messages.ts';
import { createPlace } from '../../shell/state/place.ts';
import { placeOf } from '../../shell/state/route.ts';
import { createStore } from '../../shell/state/store.ts';
import { mayGoOut } from '../../swing/state/consent.ts';
import { changeTalk, settleWrites } from '../../swing/state/edit-actions.ts';
import { readSwingAgain } from '../../swing/state/swing-actions.ts';
import { forgetLoudness } from './take-sound.ts';
import { recordedSwing, recording, startRecording, stopRecording } from './recording.ts';

/** What was recorded on a swing; `recorded` is null where nothing was. */
export interface TalkOfSwing {
  readonly swingId: string;
  readonly recorded: RecordedTalk | null;
}

/** null until the book has answered. */
export const talkOfSwing = createStore<TalkOfSwing | null>(null);
const talkPlace = createPlace();

/** Reads what was recorded on the open swing. */
export async function readTalk(): Promise<void> {
  const { swing } = app.get();
  if (swing === null || recordedSwing() !== null) return;
  const swingId = swing.swing.id;
  await talkPlace.fill(
    () => ask('talk/read', { swingId }),
    (recorded) => talkOfSwing.update(() => ({ swingId, recorded })),
  );
}

/** The talk-through with all that was put right; null where there is none, or it is not known yet. */
export function talkFrom(state: TalkOfSwing | null, swing: BookSwing | null): Talk | null {
  if (state === null || swing === null || state.swingId !== swing.swing.id || state.recorded === null) return null;
  return wholeTalk(state.recorded.takes, swing.talkEdits ?? [], closingOf(swing.page));
}

/** The same of the open swing. */
export function openTalk(): Talk | null {
  return talkFrom(talkOfSwing.get(), app.get().swing);
}

/** Shows the talk-through of the open swing over where one is, or takes it away. */
export function toggleTalkPage(): void {
  const { route, swing } = app.get();
  if (route.at === 'talk') setApp({ route: route.under });
  else if (swing !== null) setApp({ route: { at: 'talk', under: route } });
}

/**
 * Records the talk-through, or goes on from a millisecond of it: what follows there is said anew. Left out: from its end. Two
 * pictures that are large enough to talk about are shown first, where none are.
 */
export async function recordTalk(from?: number): Promise<void> {
  stopPlayback();
  if (!(await mayGoOut())) return;
  await settleWrites();
  await readTalk();
  const talk = openTalk();
  const { then } = app.get();
  const thenId = talkOfSwing.get()?.recorded?.thenId ?? null;
  if (talk !== null && thenId !== null && then !== null && then.swing.id !== thenId) {
    sayTrouble(
      say`This talk-through shows another earlier swing. Compare with that one again, or remove the talk-through.`,
    );
    return;
  }
  const start = talk === null ? null : Math.round(from ?? talkLength(talk));
  showSomething(talk, start ?? 0);
  await startRecording({ from: start, drawn: talk === null ? new Set() : drawnMarks(talk) });
}

/** Brings a picture to the bench where no large one is in sight: the one that was shown there, else the first that is named. */
function showSomething(talk: Talk | null, at: number): void {
  const { route, swing } = app.get();
  if (route.at === 'bench' || route.at === 'comparison') return;
  const place = placeOf(route);
  setApp({ route: place });
  if (place.at !== 'sheet') return;
  const pane = talk === null ? undefined : stateAt(talk, at)?.panes.find(({ which }) => which === 'now');
  const clip = swing?.clips.find(({ view }) => view === pane?.view) ?? swing?.clips[0];
  if (clip === undefined) return;
  const { address, top } = clip.checkpoints;
  openBench(clip.id, pane?.frame.index ?? (address ?? top)?.index ?? 0);
}

/** Ends the recording and shows what became of it. */
export async function finishTalk(): Promise<void> {
  if (!(await stopRecording())) return;
  await readTalk();
  const { route, swing } = app.get();
  if (swing !== null && route.at !== 'talk') setApp({ route: { at: 'talk', under: placeOf(route) } });
}

/** Begins to record on the open swing, from where it stopped; ends a recording that runs, or calls it off. */
export async function recordOrStop(): Promise<void> {
  if (recording.get().stage !== 'off') return finishTalk();
  const { swing } = app.get();
  if (swing !== null && swing.clips.length > 0) await recordTalk();
}

/** Takes in a take that was broken off, from where it was begun. */
export async function keepBrokenOff(): Promise<void> {
  const broken = talkOfSwing.get()?.recorded?.brokenOff ?? null;
  if (broken === null) return;
  changeTalk({ kind: 'retake', from: broken.from, take: broken.take });
  await settleWrites();
  await readTalk();
}

/** Deletes it. */
export async function dropBrokenOff(): Promise<void> {
  const { swingId, recorded } = talkOfSwing.get() ?? {};
  const take = recorded?.brokenOff?.take;
  if (swingId === undefined || take === undefined) return;
  await ask('talk/drop-take', { swingId, take });
  await readTalk();
}

/** Deletes the talk-through for good. */
export async function removeTalk(): Promise<void> {
  const { swing } = app.get();
  if (swing === null) return;
  await settleWrites();
  await ask('talk/remove', { swingId: swing.swing.id });
  forgetLoudness();
  await readSwingAgain();
  await readTalk();
}

/** Makes the video, where the coach says, and offers to show it. */
export async function saveTalk(shape: FilmShape, burnCaptions: boolean): Promise<void> {
  const { swing } = app.get();
  if (swing === null || !(await mayGoOut())) return;
  await settleWrites();
  const order = { swingId: swing.swing.id, shape, burnCaptions };
  const saved = await runJob(say`Making the video`, (jobId) => ask('talk/save', { ...order, jobId }));
  if (saved === null) return;
  tellDone(say`Saved ${saved.path}. The mail draft takes it along where it fits.`, {
    label: say`Show folder`,
    run: () => showSaved(saved.folder),
  });
  await readTalk();
}

export function showSaved(folder: string): void {
  ask('stills/show-folder', { folder }).catch(tellTrouble);
}

/** A recording ends where its swing is left; returns how to stop. */
export function followRecordedSwing(): () => void {
  return app.subscribe(() => {
    const swingId = recordedSwing();
    if (swingId !== null && app.get().swing?.swing.id !== swingId) void attempt(stopRecording);
  });
}
