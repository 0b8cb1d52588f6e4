import { randomUUID } from 'node:crypto';
import { rename, rm } from 'node:fs/promises';
import { extname, isAbsolute, join, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { say } from '../model/say.ts';
import { FILM_CAUTIONS } from '../film/closing-card.ts';
import { writingTrouble } from '../files/file-trouble.ts';
import { refuseExisting } from '../files/refuse-existing.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { AppError } from '../model/errors.ts';
import type { Goals } from '../model/goals.ts';
import type { Talk, TalkClip, TalkTake } from '../model/talk.ts';
import type { View } from '../model/words.ts';
import type { FilmShape } from '../talk/film-plan.ts';
import { changesOf } from '../talk/talk-state.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';
import type { SwingSource } from './swing-source.ts';
import { clipKey, type FilmFacts, type TalkAnswer, type TalkWork } from './talk-orders.ts';

export interface TalkOrder {
  readonly talk: Talk;
  /** What relative paths of sounds start from; absolute. */
  readonly folder: string;
  readonly now: SwingSource;
  readonly then: SwingSource | null;
  readonly goals: Goals;
  /** Of the hand that placed the points; left out = assumed. */
  readonly placing?: PlacingErrors;
  readonly shape: FilmShape;
  /** Whether the coach's words stand in the picture, besides the captions that a player can show. */
  readonly burnCaptions: boolean;
  /** The MP4 file. */
  readonly out: string;
  readonly existing: 'refuse' | 'replace';
}

/** Beside this file, run from TypeScript as it is or from the built program. */
const WORKER_FILE = join(import.meta.dirname, `talk-worker${extname(import.meta.filename)}`);
/** How long a thread that was told to stop may take until it is ended, ms: its ffmpeg is killed at once. */
const STOP_LIMIT_MS = 5000;

const running = new Set<Worker>();

/** How many of these threads are running, for tests that nothing is left behind. */
export function runningFilms(): number {
  return running.size;
}

/**
 * Makes the video of a talk-through and writes it, whole or not at all, in a thread of its own.
 * @throws AppError `file-exists`, `cancelled`, `file-not-found` (a sound), `no-such-frame`, `disk-full`, `not-writable`,
 *   and what reading a clip may throw.
 */
export async function renderTalk(order: TalkOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<FilmFacts> {
  stopIfCancelled(run.signal);
  const out = resolve(order.out);
  if (order.existing === 'refuse') await refuseExisting(out);
  const temporary = `${out}.${randomUUID()}.part`;
  const { goals, placing = null, shape, burnCaptions } = order;
  const work: TalkWork = {
    talk: { ...order.talk, takes: order.talk.takes.map((take) => withWholePath(take, order.folder)) },
    now: order.now.swing,
    then: order.then?.swing ?? null,
    clips: await clipsOf(order, run.signal),
    ...{ goals, placing, shape, burnCaptions, ffmpeg },
    cautions: FILM_CAUTIONS,
    out: temporary,
    named: out,
  };
  try {
    const facts = await inThread(work, run);
    stopIfCancelled(run.signal);
    if (order.existing === 'refuse') await refuseExisting(out);
    await rename(temporary, out).catch((cause: unknown) => {
      throw writingTrouble(cause, out);
    });
    return facts;
  } finally {
    await rm(temporary, { force: true }).catch(() => undefined);
  }
}

function withWholePath(take: TalkTake, folder: string): TalkTake {
  const { sound } = take;
  if (sound === null || isAbsolute(sound.file)) return take;
  return { ...take, sound: { ...sound, file: resolve(folder, sound.file) } };
}

async function clipsOf({ talk, now, then }: TalkOrder, signal: AbortSignal): Promise<TalkWork['clips']> {
  const shown = new Map<string, TalkClip>(
    changesOf(talk).flatMap(({ state }) => state.panes.map((pane) => [clipKey(pane), pane])),
  );
  const source = (which: 'then' | 'now', view: View): ReturnType<SwingSource['clipOf']> => {
    const of = which === 'now' ? now : then;
    if (of === null)
      throw new AppError('bad-request', say`The talk-through shows an earlier swing, which is not there.`);
    return of.clipOf(view, signal);
  };
  const clips: Record<string, Awaited<ReturnType<SwingSource['clipOf']>>> = {};
  for (const [key, { which, view }] of shown) {
    stopIfCancelled(signal);
    const { path, index } = await source(which, view);
    clips[key] = { path, index };
  }
  return clips;
}

async function inThread(work: TalkWork, { signal, report }: JobContext): Promise<FilmFacts> {
  const worker = new Worker(WORKER_FILE, { workerData: work });
  running.add(worker);
  let timer: NodeJS.Timeout | undefined;
  const cancel = (): void => {
    worker.postMessage('cancel');
    timer ??= setTimeout(() => void worker.terminate(), STOP_LIMIT_MS);
  };
  if (signal.aborted) cancel();
  else signal.addEventListener('abort', cancel, { once: true });
  const result = new Promise<FilmFacts>((done, fail) => {
    worker.on('message', (answer: TalkAnswer) => {
      if (answer.does === 'report') report(answer.label, answer.done, answer.total);
      else if (answer.does === 'finish') done(answer.facts);
      else if (answer.does === 'trouble') fail(new AppError(answer.code, answer.message, { detail: answer.detail }));
      else fail(new Error(answer.stack));
    });
    worker.on('error', fail);
    worker.on('exit', () => {
      if (signal.aborted) fail(new AppError('cancelled', say`Stopped. Nothing half-made was kept.`));
      else fail(new Error('the thread that makes videos ended by itself'));
    });
  });
  // The thread is gone before the caller goes on, so that nothing of it writes any more.
  const gone = new Promise<void>((resolve) => worker.once('exit', () => resolve()));
  try {
    return await result;
  } finally {
    await gone;
    clearTimeout(timer);
    signal.removeEventListener('abort', cancel);
    running.delete(worker);
  }
}
