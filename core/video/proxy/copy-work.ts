import { setImmediate as nextTurn } from 'node:timers/promises';
import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import type { PipedFrame } from '../decode/frame-pipe.ts';
import { unlessAborted } from '../process/unless-aborted.ts';
import type { ProcessEnd } from '../process/run-ffmpeg.ts';
import type { LookedAt } from './copy-order.ts';
import type { ProxyFile } from './proxy-file.ts';
import type { ProxyPass } from './proxy-pass.ts';

/** What the passes over a clip share that make its copy. */

export interface ProxyBuild {
  readonly signal: AbortSignal;
  /** Awaited before each picture is taken: until it settles, the pass stands still. */
  readonly giveWay?: (() => Promise<void>) | undefined;
  /** Called after each picture: how many are there, and how many the clip's table of frames lists. */
  readonly onFrame?: ((written: number, total: number) => void) | undefined;
  /** What is looked at now, the same object as long as nothing of it changes; nothing when not given. */
  readonly lookedAt?: (() => LookedAt) | undefined;
}

export interface BuildPlace {
  /** Throws when there is no room for so many bytes. */
  ensureRoom(bytes: number): Promise<void>;
  /** Whether we are still the ones who write. */
  held(): Promise<boolean>;
}

/** All that a pass puts its pictures into. */
export interface CopyWork {
  readonly file: ProxyFile;
  readonly index: ClipIndex;
  readonly run: ProxyBuild;
  readonly place: BuildPlace;
  /** Starts a pass from a time on (ticks; null: all), entered for a frame; see `startProxyPass`. */
  readonly startPass: (from: number | null, enterFor: number | null) => ProxyPass;
}

/** Whether the copy has the picture of a frame of the table. */
export function hasFrame({ file, index }: Pick<CopyWork, 'file' | 'index'>, frame: number): boolean {
  const pts = index.frames[frame]?.pts;
  return pts !== undefined && file.has(pts);
}

/** Whether the copy holds the first frames of the table and no others. */
export function isPrefix(work: Pick<CopyWork, 'file' | 'index'>): boolean {
  const { count } = work.file;
  return work.index.frames.slice(0, count).filter((_, frame) => hasFrame(work, frame)).length === count;
}

/** The next picture of a pass; null where its output is no list of pictures, or breaks off within one. */
export async function readNext(
  pass: ProxyPass,
  { signal, giveWay }: ProxyBuild,
): Promise<IteratorResult<PipedFrame, unknown> | null> {
  if (giveWay !== undefined) await unlessAborted(giveWay(), signal);
  const next = await pass.frames.next().catch(() => null);
  // ffmpeg complains of a picture before it delivers it. One turn lets the complaint in, which comes by another pipe.
  await nextTurn();
  return next;
}

/** Writes what was added. Returns false where another process writes the copy now. */
export async function flush({ file, place }: CopyWork, complained: boolean): Promise<boolean> {
  await place.ensureRoom(file.batch.bytes);
  if (!(await place.held())) return false;
  await file.flush(complained);
  return true;
}

/** Takes pictures of a pass, which does not outlive what goes wrong meanwhile. */
export async function owning<T>(pass: ProxyPass, taking: Promise<T>): Promise<T> {
  return taking.catch(async (error: unknown) => {
    await stopPass(pass);
    throw error;
  });
}

export async function stopPass(pass: ProxyPass): Promise<void> {
  pass.run.stop();
  await pass.run.end;
}

/** What was made so far is worth keeping; where that fails it is only made again. Throws AppError `cancelled`. */
export async function keepAndCancel({ file, place }: CopyWork, pass: ProxyPass, complained: boolean): Promise<never> {
  await stopPass(pass);
  if (await place.held()) await file.flush(complained || pass.run.complained()).catch(() => undefined);
  throw new AppError('cancelled', say`Cancelled.`);
}

/** Whether something other than the clip ended ffmpeg: a signal, or on Windows a code beyond those that programs use. */
export function endedByForce(end: ProcessEnd): boolean {
  return end.exitCode === null || end.exitCode < 0 || end.exitCode > 255;
}
