import type { BookClip, BookSwing } from '../../../core/model/book.ts';
import type { FrameMarks, PicturePoint } from '../../../core/model/mark.ts';
import type { NamingChoice, NewRepeatCheck, RepeatChoice, RepeatNaming } from '../../../core/model/repeat-check.ts';
import { swingSecondsATick } from '../../../core/measure/readings/naming.ts';
import { SUGGESTED_ROUNDS, namingStart, shuffledShowings } from '../../../core/measure/repeat/plan-check.ts';
import { seeded } from '../../../core/measure/uncertainty/seeded.ts';
import { beginRepeat, finishedCheck, stepRepeat } from '../../tools/repeat-tool.ts';
import type { RepeatRound } from '../../tools/repeat-tool.ts';
import { beginNaming, nameBefore, nameFrame, namedInRounds, namingShown, stepFrames } from '../../tools/naming-run.ts';
import type { NamingRun } from '../../tools/naming-run.ts';
import type { ToolEvent } from '../../tools/tool.ts';
import { app, setApp } from '../../shell/state/app-state.ts';
import type { AppState } from '../../shell/state/app-state.ts';
import { tellTrouble } from '../../shell/state/messages.ts';
import { keepCheck } from './placing.ts';
import { stopPlayback } from '../../bench/playback/state/playback.ts';

/** Where a repeat check is: its frames are chosen, points are placed, or it is done and shown. */
export type RepeatStage =
  | { readonly name: 'choosing' }
  | NamingStage
  | PlacingStage
  | { readonly name: 'result'; readonly check: NewRepeatCheck };

/** What of a check comes before placing, or without it. */
export interface NamingStage {
  readonly name: 'naming';
  readonly run: NamingRun;
  /** The frames whose points are placed once all is named; may be none. */
  readonly then: readonly RepeatChoice[];
  readonly leaving: boolean;
}

export interface PlacingStage {
  readonly name: 'placing';
  /** What was named before. */
  readonly namings: readonly RepeatNaming[];
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

function newSeed(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0] ?? 1;
}

/** Shows what was chosen in an order that nobody knows: first what is named, then what is placed. */
export function beginCheck(named: readonly NamingChoice[], placed: readonly RepeatChoice[]): void {
  if (named.length === 0) return beginPlacing(placed, []);
  const seed = newSeed();
  const chance = seeded(seed);
  const showings = shuffledShowings(named.length, SUGGESTED_ROUNDS, seed);
  const starts = showings.map(({ choice }) => {
    const { clipId, frame } = named[choice] ?? {};
    const clip = clipId === undefined ? null : clipToCheck(app.get(), clipId);
    if (clip === null || frame === undefined) return 0;
    const { frameCount } = clip;
    const given = { frameCount, frameSeconds: secondsAFrame(clip) };
    return namingStart(frame.index, given, [chance.uniform(), chance.uniform()]);
  });
  setStage(() => ({ name: 'naming', run: beginNaming(named, showings, starts), then: placed, leaving: false }));
}

function beginPlacing(choices: readonly RepeatChoice[], namings: readonly RepeatNaming[]): void {
  const run = beginRepeat(choices, shuffledShowings(choices.length, SUGGESTED_ROUNDS, newSeed()));
  setStage(() => ({ name: 'placing', namings, run, exact: false, missed: false, leaving: false }));
}

/** What a frame of the clip lasts where it was named, seconds of the swing. */
function secondsAFrame(clip: BookClip): number {
  const ticks = Object.values(clip.checkpoints).map((frame) => frame.ticks);
  return Math.max(1, ...ticks) * swingSecondsATick(clip);
}

/** Steps through the clip, takes the frame in sight, or goes back one; answers whether the key meant something here. */
export function sendToNaming(key: string): boolean {
  const stage = stageOf(app.get());
  if (stage?.name !== 'naming' || stage.leaving) return false;
  const change = changeOfNaming(stage.run, key);
  if (change === null) return false;
  setStage(() => ({ ...stage, run: change }));
  if (change.at === change.showings.length) finishNaming({ ...stage, run: change });
  return true;
}

const STEPS: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowRight: 1, PageUp: -10, PageDown: 10 };

function changeOfNaming(run: NamingRun, key: string): NamingRun | null {
  if (key === 'Enter') return nameFrame(run);
  if (key === 'Backspace') return nameBefore(run);
  const by = STEPS[key];
  const shown = namingShown(run);
  const clip = shown === null ? null : clipToCheck(app.get(), shown.clipId);
  return by === undefined || clip === null ? null : stepFrames(run, by, clip.frameCount);
}

function finishNaming({ run, then }: NamingStage): void {
  const namings = run.choices.flatMap((choice, place): readonly RepeatNaming[] => {
    const clip = clipToCheck(app.get(), choice.clipId);
    const frames = app.get().indexes[choice.clipId]?.frames;
    if (clip === null || frames === undefined) return [];
    const instants = namedInRounds(run, place).flatMap((index) => {
      const frame = frames[index];
      return frame === undefined ? [] : [(frame.pts - choice.frame.pts) * swingSecondsATick(clip)];
    });
    const { clipId, checkpoint } = choice;
    return [{ clipId, checkpoint, frameSeconds: secondsAFrame(clip), after: [0, ...instants] }];
  });
  if (then.length > 0) beginPlacing(then, namings);
  else setStage(() => ({ name: 'result', check: { at: new Date().toISOString(), frames: [], namings } }));
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
  if (run.at === run.showings.length) finish(run, stage.namings);
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

function finish(run: RepeatRound, namings: readonly RepeatNaming[]): void {
  const frames = finishedCheck(run, markedAs);
  if (frames === null) {
    tellTrouble(new Error('a repeat check ended without all of its places'));
    closeRepeatCheck();
    return;
  }
  setStage(() => ({ name: 'result', check: { at: new Date().toISOString(), frames, namings } }));
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
  setStage((stage) => (stage.name === 'placing' || stage.name === 'naming' ? { ...stage, leaving } : stage));
}

/** Keeps the finished check, so that readings count with it, and goes back to where it was begun. */
export async function takeNumbers(): Promise<void> {
  const stage = stageOf(app.get());
  if (stage?.name !== 'result') return;
  await keepCheck(stage.check);
  // Left or begun anew meanwhile: that stays.
  if (stageOf(app.get()) === stage) closeRepeatCheck();
}
