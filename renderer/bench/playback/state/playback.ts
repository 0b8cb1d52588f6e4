import type { FrameSpan } from '../../../../core/model/frame.ts';
import type { ClipIndex } from '../../../../core/time/clip-index.ts';
import { app } from '../../../shell/state/app-state.ts';
import type { AppState } from '../../../shell/state/app-state.ts';
import type { PlaybackPlace } from './playback-place.ts';
import { NO_ENDS, spanFrames, withEnd, withStart } from './loop-span.ts';
import type { LoopEnds } from './loop-span.ts';
import { afterPicture, newPace, paceAt } from './playback-pace.ts';
import type { Pace } from './playback-pace.ts';
import { SLOWINGS, firstFrame, nextFrame, smallestEvery, stayOf } from './playback-schedule.ts';
import type { Slowing } from './playback-schedule.ts';
import { createStore } from '../../../shell/state/store.ts';

/** The run through the frames of the clip that is looked at, as far as the window shows it. */
export interface PlaybackState {
  readonly running: boolean;
  /** The file's own speed is divided by this. */
  readonly slowing: Slowing;
  readonly loops: boolean;
  /** Each picture of the run is this many frames on; 1 passes none over. */
  readonly every: number;
  /** By clip. */
  readonly ends: Readonly<Record<string, LoopEnds>>;
}

export const run = createStore<PlaybackState>({ running: false, slowing: 1, loops: false, every: 1, ends: {} });

function setRun(fields: Partial<PlaybackState>): void {
  run.update((state) => ({ ...state, ...fields }));
}

/** What a run needs of the window it runs in. */
export interface PlaybackHands {
  readonly place: PlaybackPlace;
  /** Whether everything that is to be seen of this frame is on screen: still coming, there, or known to have no picture. */
  seen(clipId: string, index: number): 'coming' | 'there' | 'none';
  /** Calls back once at the next refresh of the screen, with its time in ms; returns how to take that back. */
  atRefresh(callback: (now: number) => void): () => void;
}

let hands: PlaybackHands | null = null;
let end: (() => void) | null = null;

/** Gives runs a window; returns how to take it away, which stops a run. */
export function connectPlayback(given: PlaybackHands): () => void {
  hands = given;
  return () => {
    stopPlayback();
    if (hands === given) hands = null;
  };
}

/** Stops the run; answers whether one was on. */
export function stopPlayback(): boolean {
  const running = end;
  end = null;
  running?.();
  return running !== null;
}

export function togglePlayback(): void {
  if (!stopPlayback()) startPlayback();
}

/** Runs from the frame that is looked at to the end of the span, again and again where it loops. */
export function startPlayback(): void {
  stopPlayback();
  const at = hands?.place.at(app.get()) ?? null;
  const index = at === null ? undefined : app.get().indexes[at.clipId];
  if (at === null || index === undefined || index.frames.length < 2 || hands === null) return;
  end = follow(at.clipId, index, at.index, hands);
}

export function setSlowing(slowing: Slowing): void {
  setRun({ slowing });
}

/** Slower (+1) or faster (-1) by one step, if there is one. */
export function changeSlowing(steps: 1 | -1): void {
  const slowing = SLOWINGS[SLOWINGS.indexOf(run.get().slowing) + steps];
  if (slowing !== undefined) setSlowing(slowing);
}

export function toggleLoop(): void {
  setRun({ loops: !run.get().loops });
}

/** The loop begins at the frame that is looked at. Whoever sets an end means to loop. */
export function loopFromHere(): void {
  setEnds(withStart);
}

export function loopToHere(): void {
  setEnds(withEnd);
}

function setEnds(change: (ends: LoopEnds, pts: number) => LoopEnds): void {
  const at = hands?.place.at(app.get()) ?? null;
  const frame = at === null ? undefined : app.get().indexes[at.clipId]?.frames[at.index];
  if (at === null || frame === undefined) return;
  const { ends } = run.get();
  setRun({ ends: { ...ends, [at.clipId]: change(ends[at.clipId] ?? NO_ENDS, frame.pts) }, loops: true });
}

/** The run goes over the whole clip again. */
export function clearEnds(clipId: string): void {
  setRun({ ends: { ...run.get().ends, [clipId]: NO_ENDS } });
}

export function endsOf(state: PlaybackState, clipId: string): LoopEnds {
  return state.ends[clipId] ?? NO_ENDS;
}

/** The screen's refresh until it was measured, ms; and how many of its gaps are measured at a time. */
const USUAL_REFRESH = 1000 / 60;
const GAPS = 21;

/** One run from its first picture to its end; returns what ends it. */
function follow(
  clipId: string,
  index: ClipIndex,
  startAt: number,
  { place, seen, atRefresh }: PlaybackHands,
): () => void {
  const { swing } = app.get();
  const span = (): FrameSpan => spanFrames(index.frames, endsOf(run.get(), clipId));
  const gaps: number[] = [];
  let { slowing } = run.get();
  let pace: Pace = newPace(smallestEvery(index, span(), slowing, USUAL_REFRESH));
  let at = firstFrame(startAt, span());
  /** When the last refresh was, when the picture before this one came, and when this one was due. */
  let lastRefresh: number | null = null;
  let before: { readonly came: number; readonly stay: number } | null = null;
  let due: number | null = null;
  /** When the picture of `at` came; null until it has. */
  let came: number | null = null;

  const setPace = (next: Pace): void => {
    pace = next;
    if (run.get().every !== pace.every) setRun({ every: pace.every });
  };
  const measureRefresh = (now: number): void => {
    if (lastRefresh !== null) gaps.push(now - lastRefresh);
    lastRefresh = now;
    if (gaps.length < GAPS) return;
    const refresh = gaps.toSorted((a, b) => a - b)[GAPS >> 1] ?? USUAL_REFRESH;
    gaps.length = 0;
    const smallest = smallestEvery(index, span(), slowing, refresh);
    if (smallest !== pace.smallest) setPace({ ...pace, smallest, every: Math.max(pace.every, smallest) });
  };
  const followSpeed = (): void => {
    const wanted = run.get().slowing;
    if (wanted === slowing) return;
    setPace(paceAt(pace, smallestEvery(index, span(), wanted, USUAL_REFRESH), slowing / wanted));
    slowing = wanted;
    // Counted anew from the picture that is there.
    before = null;
    due = null;
  };

  /** Looks whether the picture of `at` has come; one that has is on screen with this refresh at the earliest. */
  const look = (now: number): boolean => {
    const state = seen(clipId, at);
    if (state === 'none') stopPlayback();
    if (state !== 'there') return false;
    if (came !== null) return true;
    came = now;
    if (before !== null) setPace(afterPicture(pace, before.stay, now - before.came));
    return false;
  };
  const go = (next: number): void => {
    at = next;
    came = null;
    place.goTo(next);
  };
  const step = (now: number): void => {
    takeBack = atRefresh(step);
    measureRefresh(now);
    followSpeed();
    if (!look(now) || came === null) return;
    const next = nextFrame(at, pace.every, span(), run.get().loops);
    if (next === null) return void stopPlayback();
    const stay = stayOf(index, at, next, slowing);
    // A picture that came late lets the run catch up by one picture at the most; beyond that the clock waits.
    const clock = Math.max(due ?? came, came - stay);
    if (now + USUAL_REFRESH / 2 < clock + stay) return;
    before = { came, stay };
    due = clock + stay;
    go(next);
    // A picture that was fetched ahead is painted by now, and this refresh brings it.
    look(now);
  };
  const isElsewhere = (state: AppState): boolean => {
    const here = place.at(state);
    const isHere = here !== null && here.clipId === clipId && here.index === at && !here.busy;
    return !isHere || state.swing !== swing || state.indexes[clipId] !== index;
  };

  setRun({ running: true, every: pace.every });
  if (at !== startAt) place.goTo(at);
  let takeBack = atRefresh(step);
  const stopFollowing = app.subscribe(() => {
    if (isElsewhere(app.get())) stopPlayback();
  });
  return () => {
    takeBack();
    stopFollowing();
    setRun({ running: false });
  };
}
