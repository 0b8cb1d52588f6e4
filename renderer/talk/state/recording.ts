import { AppError } from '../../../core/model/errors.ts';
import { say } from '../../../core/model/say.ts';
import { recordingClock, SETTLES_MS } from '../../../core/talk/recording-clock.ts';
import type { RecordingClock } from '../../../core/talk/recording-clock.ts';
import { listening, meterOf, peakOf, sixteenBit } from '../../../core/talk/sound-level.ts';
import { ask } from '../../api.ts';
import { app } from '../../shell/state/app-state.ts';
import { sayTrouble, solved, tellTrouble } from '../../shell/state/messages.ts';
import { createStore } from '../../shell/state/store.ts';
import { changeTalk, settleWrites } from '../../swing/state/edit-actions.ts';
import { microphoneTrouble, NO_MICROPHONE, openMicrophone, SAMPLE_RATE } from './microphone.ts';
import type { MicrophoneChoice, OpenMicrophone } from './microphone.ts';
import { createTakeLog } from './take-log.ts';
import type { ScreenNow, TakeLog } from './take-log.ts';

/** What a recording does. opening: waits for the microphone. silent: has none and asks what to do. */
export type RecordingStage = 'off' | 'opening' | 'silent' | 'count-in' | 'recording' | 'paused' | 'ending';

/** The recording of a talk-through, as far as the window shows it. */
export interface RecordingState {
  readonly stage: RecordingStage;
  /** Seconds until it begins. */
  readonly left: number;
  /** Whole seconds of the take so far. */
  readonly seconds: number;
  /** How far the meter is filled, 0 to 1; null without a microphone. */
  readonly level: number | null;
  readonly microphones: readonly MicrophoneChoice[];
  /** null: the system's own choice. */
  readonly microphone: string | null;
}

const OFF: RecordingState = { stage: 'off', left: 0, seconds: 0, level: null, microphones: [], microphone: null };
export const recording = createStore<RecordingState>(OFF);

const set = (fields: Partial<RecordingState>): void => recording.update((state) => ({ ...state, ...fields }));

/** What a recording needs of the window it runs in. */
export interface RecordingHands {
  /** What is on the screen; no pictures where none is large enough to talk about. */
  screen(): ScreenNow;
  /** Calls back when something on the screen may have changed, with the instant when a hand did it; returns how to stop. */
  follow(changed: (now: number) => void): () => void;
}

/** From where a take is said anew, ms of the talk-through (null: the first one), and what earlier ones drew. */
export interface TakeWanted {
  readonly from: number | null;
  readonly drawn: ReadonlySet<string>;
}

const COUNT_IN = 3;
/** So often what was recorded goes to the program, ms: a program that is killed loses no more. */
const HAND_OVER_MS = 100;
const ABOUT = 'microphone';
const NOTHING_HEARD = say`Nothing is heard. Check that the right microphone is chosen and not muted.`;

const MICROPHONE_GONE = say`The microphone is gone, so the recording is paused. All that you said is kept. Plug it in or choose another one, then press “Go on”.`;

let hands: RecordingHands | null = null;
let running: Running | null = null;

/** Gives recordings a window; returns how to take it away. */
export function connectRecording(given: RecordingHands): () => void {
  hands = given;
  return () => {
    if (hands === given) hands = null;
  };
}

interface Running {
  readonly swingId: string;
  readonly wanted: TakeWanted;
  readonly log: TakeLog;
  microphone: OpenMicrophone | null;
  /** The microphone was pulled out: nothing is heard until another one is had. */
  deaf: boolean;
  /** The take in the program, once it is begun. */
  take: number | null;
  /** Of the sound, or of the computer where there is none, since recording went on last. */
  clock: RecordingClock;
  /** Milliseconds of the take when it went on last, and samples since. */
  base: number;
  samples: number;
  startedAt: number;
  sound: Int16Array[];
  /** What was handed over before must be kept before what follows. */
  handing: Promise<unknown>;
  timer: ReturnType<typeof setInterval> | null;
  stopFollowing: () => void;
}

/** Begins to record: opens the microphone, counts in, and records until `stopRecording`. */
export async function startRecording(wanted: TakeWanted): Promise<void> {
  const { swing } = app.get();
  if (running !== null || swing === null) return;
  const mine: Running = {
    ...{ swingId: swing.swing.id, wanted, log: createTakeLog(wanted.drawn), microphone: null, take: null, deaf: false },
    ...{ clock: recordingClock(), base: 0, samples: 0, startedAt: 0, sound: [], handing: Promise.resolve() },
    ...{ timer: null, stopFollowing: () => undefined },
  };
  running = mine;
  recording.update((state) => ({ ...OFF, stage: 'opening', microphone: state.microphone }));
  await listenAndCount(mine);
}

/** Tries the microphone again after it could not be had. */
export async function tryMicrophoneAgain(): Promise<void> {
  if (running === null || recording.get().stage !== 'silent') return;
  set({ stage: 'opening' });
  await listenAndCount(running);
}

/** Goes on without a microphone: what is shown is recorded, and words are written in later. */
export async function recordWithoutSound(): Promise<void> {
  if (running === null || recording.get().stage !== 'silent') return;
  solved(ABOUT);
  await countIn(running);
}

/** Listens to another microphone from now on. */
export async function chooseMicrophone(id: string | null): Promise<void> {
  set({ microphone: id });
  try {
    await running?.microphone?.change(id);
    if (running !== null) running.deaf = false;
    solved(ABOUT);
  } catch (error) {
    sayTrouble(microphoneTrouble(error), null, ABOUT);
  }
}

async function listenAndCount(mine: Running): Promise<void> {
  try {
    const opened = await openMicrophone(recording.get().microphone, hearFor(mine), () => microphoneGone(mine));
    if (running !== mine) return void opened.close();
    mine.microphone = opened;
    solved(ABOUT);
    set({ microphones: await opened.choices(), level: 0 });
  } catch (error) {
    if (running !== mine) return;
    sayTrouble(microphoneTrouble(error), null, ABOUT);
    set({ stage: 'silent', level: null });
    return;
  }
  await countIn(mine);
}

async function countIn(mine: Running): Promise<void> {
  for (let left = COUNT_IN; left > 0; left--) {
    set({ stage: 'count-in', left });
    await new Promise((resolve) => setTimeout(resolve, 1000));
    if (running !== mine || recording.get().stage !== 'count-in') return;
  }
  try {
    const { swingId, wanted, microphone } = mine;
    const thenId = app.get().then?.swing.id ?? null;
    const begun = await ask('talk/begin', { swingId, thenId, from: wanted.from, sound: microphone !== null });
    if (running !== mine) return void (await ask('talk/end', { whole: true }));
    mine.take = begun.take;
    goOn(mine);
    mine.stopFollowing = hands?.follow((now) => look(mine, now)) ?? mine.stopFollowing;
    mine.timer = setInterval(() => handOver(mine), HAND_OVER_MS);
  } catch (error) {
    tellTrouble(error);
    await letGo(mine);
  }
}

/** From here on sound and pictures count. */
function goOn(mine: Running): void {
  mine.clock = recordingClock(mine.base);
  mine.samples = 0;
  mine.startedAt = performance.now();
  set({ stage: 'recording' });
  look(mine, mine.startedAt);
}

/** Milliseconds of the take at an instant. */
function timeAt(mine: Running, now: number): number {
  if (mine.microphone !== null) return mine.clock.at(now);
  return Math.round(mine.base + Math.max(0, now - mine.startedAt));
}

function look(mine: Running, now: number): void {
  if (recording.get().stage !== 'recording' || hands === null) return;
  mine.log.look(hands.screen(), now);
}

function hearFor(mine: Running): (samples: Float32Array) => void {
  const ear = listening();
  let isQuiet = false;
  return (samples) => {
    if (running !== mine) return;
    const { stage } = recording.get();
    const milliseconds = (samples.length * 1000) / SAMPLE_RATE;
    const peak = peakOf(samples);
    level(meterOf(peak));
    if (stage !== 'recording') return;
    mine.samples += samples.length;
    mine.clock.arrived((mine.samples * 1000) / SAMPLE_RATE, performance.now());
    mine.sound.push(sixteenBit(samples));
    const wasQuiet = isQuiet;
    isQuiet = ear.heard(peak, milliseconds);
    if (isQuiet && !wasQuiet) sayTrouble(NOTHING_HEARD, null, ABOUT);
    if (!isQuiet && wasQuiet) solved(ABOUT);
  };
}

/** It was pulled out. The sound is the clock, so the time stops with it; what was recorded is whole. */
function microphoneGone(mine: Running): void {
  if (running !== mine) return;
  const { stage } = recording.get();
  if (stage === 'recording' || stage === 'paused') {
    mine.deaf = true;
    if (stage === 'recording') pause(mine);
    set({ level: 0 });
    sayTrouble(MICROPHONE_GONE, null, ABOUT);
  } else if (stage !== 'ending') {
    void mine.microphone?.close().catch(() => undefined);
    mine.microphone = null;
    set({ stage: 'silent', level: null });
    sayTrouble(NO_MICROPHONE, null, ABOUT);
  }
}

/** The meter falls slower than the sound, so that it can be read. */
const FALL = 0.04;
function level(next: number): void {
  const before = recording.get().level ?? 0;
  const shown = Math.max(next, before - FALL);
  if (Math.abs(shown - before) > 0.01) set({ level: shown });
}

/**
 * Hands what was recorded since to the program; where it cannot be kept, the recording ends with what was. What happened is told
 * only once the sound after it has come, which says when that was; `all`: at once, as well as it is known.
 */
function handOver(mine: Running, all = false): void {
  const now = performance.now();
  const isOn = recording.get().stage === 'recording';
  const seconds = Math.floor((isOn ? timeAt(mine, now) : mine.base) / 1000);
  if (seconds !== recording.get().seconds) set({ seconds });
  const sound = joined(mine.sound);
  mine.sound = [];
  const until = all || mine.microphone === null ? Infinity : now - SETTLES_MS;
  const events = mine.log.taken((instant) => timeAt(mine, instant), until);
  const time = mine.microphone === null && isOn ? timeAt(mine, now) : null;
  if (sound === null && events.length === 0 && time === null) return;
  mine.handing = mine.handing.then(() => ask('talk/append', { sound, events, time }));
  mine.handing.catch((error: unknown) => {
    if (running !== mine) return;
    tellTrouble(error instanceof AppError ? stoppedBy(error) : error);
    void stopRecording();
  });
}

/** What kept the recording from going on, with what became of it. */
function stoppedBy({ code, message }: AppError): AppError {
  const kept = say`The recording has stopped. What you said until then is kept: press “Record” to go on from there.`;
  return new AppError(code, `${message} ${kept}`);
}

function joined(heaps: readonly Int16Array[]): Int16Array | null {
  const length = heaps.reduce((sum, heap) => sum + heap.length, 0);
  if (length === 0) return null;
  const whole = new Int16Array(length);
  let at = 0;
  for (const heap of heaps) {
    whole.set(heap, at);
    at += heap.length;
  }
  return whole;
}

/** Stops the time, or lets it go on. */
export function togglePause(): void {
  const { stage } = recording.get();
  if (running === null) return;
  if (stage === 'recording') pause(running);
  else if (stage === 'paused' && running.deaf) void hearAgain(running);
  else if (stage === 'paused') goOn(running);
}

function pause(mine: Running): void {
  const { microphone, samples } = mine;
  const now = performance.now();
  // By the clock of what was recorded until now.
  handOver(mine, true);
  mine.base = microphone === null ? timeAt(mine, now) : mine.base + (samples * 1000) / SAMPLE_RATE;
  set({ stage: 'paused' });
}

/** Goes on with the microphone once it is there again, or with the one that the system has in its place. */
async function hearAgain(mine: Running): Promise<void> {
  const { microphone } = mine;
  if (microphone === null) return;
  try {
    await microphone.change(recording.get().microphone).catch(() => microphone.change(null));
  } catch {
    if (running === mine) sayTrouble(MICROPHONE_GONE, null, ABOUT);
    return;
  }
  if (running !== mine) return;
  mine.deaf = false;
  solved(ABOUT);
  set({ microphones: await microphone.choices() });
  if (running === mine && recording.get().stage === 'paused') goOn(mine);
}

/**
 * Ends the recording, or calls it off where it has not begun. Settles once all is kept. Answers whether something was
 * recorded.
 */
export async function stopRecording(): Promise<boolean> {
  const mine = running;
  if (mine === null || recording.get().stage === 'ending') return false;
  const { take, wanted } = mine;
  if (take === null) {
    await letGo(mine);
    return false;
  }
  if (recording.get().stage === 'recording') handOver(mine, true);
  set({ stage: 'ending' });
  // Where its swing was left meanwhile no edit can bring it in: it is offered when the swing is opened next.
  let whole = wanted.from === null || app.get().swing?.swing.id === mine.swingId;
  try {
    await mine.handing.catch(() => undefined);
    // In the book before the take counts as ended: what nothing names would be taken for what was taken back.
    if (wanted.from !== null && whole) changeTalk({ kind: 'retake', from: wanted.from, take });
    await settleWrites();
  } catch {
    // Told already. The take is offered anew.
    whole = false;
  }
  try {
    await ask('talk/end', { whole });
  } catch (error) {
    tellTrouble(error);
  }
  await letGo(mine);
  return true;
}

async function letGo(mine: Running): Promise<void> {
  if (running !== mine) return;
  running = null;
  if (mine.timer !== null) clearInterval(mine.timer);
  mine.stopFollowing();
  solved(ABOUT);
  recording.update(({ microphone }) => ({ ...OFF, microphone }));
  await mine.microphone?.close().catch(() => undefined);
}

/** The swing that is being recorded on; null: none is. */
export function recordedSwing(): string | null {
  return running?.swingId ?? null;
}
