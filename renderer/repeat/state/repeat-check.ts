import type { BookClip, BookSwing } from '../../../core/model/book.ts';
import type { FrameMarks, PicturePoint } from '../../../core/model/mark.ts';
import type { NewRepeatCheck, RepeatChoice } from '../../../core/model/repeat-check.ts';
import { SUGGESTED_ROUNDS, shuffledShowings } from '../../../core/measure/repeat/plan-check.ts';
import { beginRepeat, finishedCheck, stepRepeat } from '../../tools/repeat-tool.ts';
import type { RepeatRound } from '../../tools/repeat-tool.ts';
import type { ToolEvent } from '../../tools/tool.ts';
import { app, setApp } from '../../shell/state/app-state.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import { tellTrouble } from '../../shell/state/messages.ts';
import { keepCheck } from './placing.ts';
import { stopPlayback } from '../../bench/playback/state/playback.ts';

/** Where a repeat check is: its frames are chosen, points are placed, or it is done and shown. */
export type RepeatStage =
  { readonly name: 'choosing' } | PlacingStage | { readonly name: 'result'; readonly check: NewRepeatCheck };

export interface PlacingStage {
  readonly name: 'placing';
  readonly run: RepeatRound;
  /** Whether the exact picture of the frame is on screen; only then can points be placed. */
  readonly exact: boolean;
  /** Whether the last press came before the picture and so was not taken. */
  readonly missed: boolean;
  /** Whether the coach is being asked if the check is to be left. */
  readonly leaving: boolean;
}

/** null: no check is on screen. */
export function stageOf({ route }: Pick<AppState, 'route'>): RepeatStage | null {
  return route.at === 'repeat check' ? route.stage : null;
}

function setStage(change: (stage: RepeatStage) => RepeatStage): void {
  app.update((state) => {
    const { route } = state;
    if (route.at !== 'repeat check') return state;
    const stage = change(route.stage);
    return stage === route.stage ? state : { ...state, route: { ...route, stage } };
  });
}

export function openRepeatCheck(): void {
  stopPlayback();
  const under = app.get().route;
  setApp({ route: { at: 'repeat check', stage: { name: 'choosing' }, under } });
}

/** Back to where it was begun. */
export function closeRepeatCheck(): void {
  const { route } = app.get();
  if (route.at === 'repeat check') setApp({ route: route.under });
}

/** Shows the chosen frames in an order that nobody knows. */
export function beginPlacing(choices: readonly RepeatChoice[]): void {
  const [seed = 1] = crypto.getRandomValues(new Uint32Array(1));
  const run = beginRepeat(choices, shuffledShowings(choices.length, SUGGESTED_ROUNDS, seed));
  setStage(() => ({ name: 'placing', run, exact: false, missed: false, leaving: false }));
}

/**
 * Hands an event to the run; answers whether it used it. After the last point the check is shown as done. On the bench a
 * press goes before its picture; here it does not: the check measures how well a hand finds what it sees, and a press on
 * nothing would count as a bad one. It is not taken, that is said, and the same point is asked for as before.
 */
export function sendToRepeat(event: ToolEvent, reach: number, centre: PicturePoint): boolean {
  const stage = stageOf(app.get());
  if (stage?.name !== 'placing' || stage.leaving) return false;
  if (!stage.exact && isPlacing(event)) {
    if (event.type === 'down') setStage(() => ({ ...stage, missed: true }));
    return false;
  }
  const { run, used } = stepRepeat(stage.run, event, reach, centre);
  if (!used) return false;
  const exact = stage.exact && isSameFrame(stage.run, run);
  const missed = stage.missed && event.type === 'move';
  setStage(() => ({ ...stage, run, exact, missed }));
  if (run.at === run.showings.length) finish(run);
  return true;
}

/** Going back needs no picture. */
function isPlacing(event: ToolEvent): boolean {
  if (event.type === 'key') return event.key !== 'Backspace';
  return event.type === 'down' || event.type === 'nudge';
}

/** A frame that follows on itself keeps its picture. */
function isSameFrame(before: RepeatRound, after: RepeatRound): boolean {
  return before.showings[before.at]?.choice === after.showings[after.at]?.choice;
}

function finish(run: RepeatRound): void {
  const frames = finishedCheck(run, markedAs);
  if (frames === null) {
    tellTrouble(new Error('a repeat check ended without all of its places'));
    closeRepeatCheck();
    return;
  }
  setStage(() => ({ name: 'result', check: { at: new Date().toISOString(), frames } }));
}

/** How the points of a chosen frame were marked. */
function markedAs({ clipId, frame }: RepeatChoice): FrameMarks['points'] {
  const marks = clipToCheck(app.get(), clipId)?.marks.find((each) => each.frame.pts === frame.pts);
  return marks?.points ?? {};
}

export type SwingsToCheck = Pick<AppState, 'swing' | 'then'>;

/** The open swing, or the earlier one beside it, whichever has the clip. */
export function swingToCheck({ swing, then }: SwingsToCheck, clipId: string): BookSwing | null {
  return [swing, then].find((each) => each?.clips.some(({ id }) => id === clipId)) ?? null;
}

export function clipToCheck(state: SwingsToCheck, clipId: string): BookClip | null {
  return swingToCheck(state, clipId)?.clips.find(({ id }) => id === clipId) ?? null;
}

/** Told by whoever paints the frame. */
export function setRepeatExact(exact: boolean): void {
  setStage((stage) => (stage.name !== 'placing' || stage.exact === exact ? stage : { ...stage, exact }));
}

/** Asks whether the check is to be left; with `false` it goes on. */
export function askToLeave(leaving: boolean): void {
  setStage((stage) => (stage.name === 'placing' ? { ...stage, leaving } : stage));
}

/** Keeps the finished check, so that readings count with it, and goes back to where it was begun. */
export async function takeNumbers(): Promise<void> {
  const stage = stageOf(app.get());
  if (stage?.name !== 'result') return;
  await keepCheck(stage.check);
  // Left or begun anew meanwhile: that stays.
  if (stageOf(app.get()) === stage) closeRepeatCheck();
}
