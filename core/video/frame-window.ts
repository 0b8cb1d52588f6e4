import { AppError } from '../model/errors.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { readIndexedSource } from './clip-source.ts';
import type { ClipSource } from './clip-source.ts';
import type { Ffmpeg } from './find-ffmpeg.ts';
import { FrameCache } from './frame-cache.ts';
import { FrameRun } from './frame-run.ts';
import { processError } from './run-ffmpeg.ts';
import type { ProcessEnd } from './run-ffmpeg.ts';
import { AHEAD, jumpRange, prepareRange, reachesSoon } from './window-plan.ts';
import type { FrameRange } from './window-plan.ts';

export interface FrameWindowOptions {
  readonly ffmpeg: Ffmpeg;
  /** Shared by all windows when not given, 256 MB in all. */
  readonly cache?: FrameCache;
  /** Milliseconds without a request after which the ffmpeg that stands ready is ended. */
  readonly idleMs?: number;
}

/** Pictures of one clip for moving through it. */
export interface FrameWindow {
  /**
   * The frame as a JPEG of the displayed size, upright, square pixels. A frame near the last one asked for is there at
   * once. The newest request wins: an older one whose frame is out of reach of the newest is rejected as `cancelled`.
   *
   * Rejects with AppError: `no-such-frame`, `cancelled`, `clip-damaged`, `clip-changed`, `ffmpeg-failed`, and as `readIndexedSource`.
   */
  quick(frameIndex: number, options?: { readonly signal?: AbortSignal | undefined }): Promise<Uint8Array>;
  /** Ends what is running and forgets the pictures; requests under way are rejected as `cancelled`. */
  close(): Promise<void>;
}

interface Waiter {
  readonly frameIndex: number;
  readonly resolve: (data: Uint8Array) => void;
  readonly reject: (error: unknown) => void;
}

const IDLE_MS = 15_000;
const sharedCache = new FrameCache();

/** Opens a clip for moving through it. Nothing is read before the first request. */
export function openFrameWindow(path: string, index: ClipIndex, options: FrameWindowOptions): FrameWindow {
  return new Window(path, index, options);
}

class Window implements FrameWindow {
  readonly #path: string;
  readonly #index: ClipIndex;
  readonly #ffmpeg: Ffmpeg;
  readonly #cache: FrameCache;
  readonly #idleMs: number;
  /** Owns its pictures in the shared cache. */
  readonly #owner = Symbol('clip');
  #source: Promise<ClipSource> | null = null;
  readonly #waiters = new Set<Waiter>();
  #run: FrameRun | null = null;
  /** What is about to run, while the facts of the clip are still being read. */
  #planned: { readonly next: number; readonly to: number; goal: number } | null = null;
  /** Runs that were told to stop and are not gone yet. */
  readonly #ending = new Set<Promise<void>>();
  #idleTimer: NodeJS.Timeout | null = null;
  #previous: number | null = null;
  #closed = false;

  constructor(path: string, index: ClipIndex, options: FrameWindowOptions) {
    this.#path = path;
    this.#index = index;
    this.#ffmpeg = options.ffmpeg;
    this.#cache = options.cache ?? sharedCache;
    this.#idleMs = options.idleMs ?? IDLE_MS;
  }

  async quick(frameIndex: number, options: { readonly signal?: AbortSignal | undefined } = {}): Promise<Uint8Array> {
    const count = this.#index.frames.length;
    if (this.#index.frames[frameIndex] === undefined)
      throw new AppError('no-such-frame', `There is no frame ${frameIndex}; the clip has frames 0 to ${count - 1}.`);
    if (this.#closed || options.signal?.aborted === true) throw cancelled();

    this.#stayAwake();
    const previous = this.#previous;
    this.#previous = frameIndex;
    const kept = this.#cache.get(this.#owner, frameIndex);
    if (kept !== null) {
      this.#prepare(frameIndex, previous);
      return kept;
    }
    return new Promise((resolve, reject) => {
      const waiter: Waiter = {
        frameIndex,
        resolve: (data) => {
          this.#waiters.delete(waiter);
          options.signal?.removeEventListener('abort', abort);
          resolve(data);
        },
        reject: (error) => {
          this.#waiters.delete(waiter);
          options.signal?.removeEventListener('abort', abort);
          reject(error instanceof Error ? error : new Error(String(error)));
        },
      };
      const abort = (): void => {
        waiter.reject(cancelled());
      };
      options.signal?.addEventListener('abort', abort, { once: true });
      this.#waiters.add(waiter);
      const [run, planned] = [this.#run, this.#planned];
      if (run !== null && reachesSoon({ next: run.next, to: run.range.to }, frameIndex))
        run.readUpTo(frameIndex + AHEAD);
      else if (planned !== null && reachesSoon(planned, frameIndex))
        planned.goal = Math.max(planned.goal, frameIndex + AHEAD);
      else void this.#start(jumpRange(frameIndex, count), frameIndex + AHEAD, false);
    });
  }

  async close(): Promise<void> {
    this.#closed = true;
    if (this.#idleTimer !== null) clearTimeout(this.#idleTimer);
    for (const waiter of this.#waiters) waiter.reject(cancelled());
    this.#stopRun();
    this.#cache.drop(this.#owner);
    await Promise.all(this.#ending);
  }

  /** Goes on ahead, or behind, of a frame that was there. */
  #prepare(frameIndex: number, previous: number | null): void {
    if (this.#planned !== null) return;
    const run = this.#run;
    const back = previous !== null && frameIndex < previous;
    if (!back && run !== null && run.next <= run.range.to && Math.abs(run.next - frameIndex) <= AHEAD) {
      run.readUpTo(frameIndex + AHEAD);
      return;
    }
    // A request under way matters more than what might be asked for next.
    if (this.#waiters.size > 0) return;
    const range = prepareRange(frameIndex, previous, this.#index.frames.length, (i) => this.#cache.has(this.#owner, i));
    if (range === null) return;
    const missing = back ? range.to : range.from;
    const coming = run !== null && run.next <= missing && missing <= run.range.to;
    if (coming && (back || missing - run.next <= AHEAD)) run.readUpTo(missing);
    else void this.#start(range, back ? range.to : range.from + AHEAD, false);
  }

  /** Replaces what is running. Requests that the new run does not reach are rejected. */
  async #start(range: FrameRange, goal: number, fromStart: boolean): Promise<void> {
    this.#stopRun();
    for (const waiter of this.#waiters)
      if (waiter.frameIndex < range.from || waiter.frameIndex > goal) waiter.reject(cancelled());
    // Whoever starts later wins, also when the facts of the clip come late.
    const planned = { next: range.from, to: range.to, goal };
    this.#planned = planned;
    let source: ClipSource;
    try {
      this.#source ??= readIndexedSource(this.#path, this.#index, { ffmpeg: this.#ffmpeg });
      source = await this.#source;
    } catch (error) {
      this.#source = null;
      if (planned !== this.#planned) return;
      this.#planned = null;
      for (const waiter of this.#waiters) waiter.reject(error);
      return;
    }
    if (this.#closed || planned !== this.#planned) return;
    this.#planned = null;
    const run = new FrameRun(source, this.#index, this.#ffmpeg, range, {
      goal: Math.min(planned.goal, range.to),
      fromStart,
    });
    this.#run = run;
    const end = await run.pump((frameIndex, data) => {
      if (this.#run !== run) return;
      this.#cache.put(this.#owner, frameIndex, data);
      for (const waiter of this.#waiters) if (waiter.frameIndex === frameIndex) waiter.resolve(data);
      this.#serveMissed(run, frameIndex);
    });
    if (this.#run !== run) return;
    this.#run = null;
    this.#serveLeftOver(run, end);
  }

  /** Requests that a run has passed without delivering: it could not decode them from where it entered. */
  #serveMissed(run: FrameRun, delivered: number): void {
    const missed = [...this.#waiters].filter(
      ({ frameIndex }) => frameIndex >= run.range.from && frameIndex < delivered,
    );
    if (missed.length === 0) return;
    if (run.fromStart) for (const waiter of missed) waiter.reject(cannotDecode(waiter.frameIndex));
    else this.#startOver(Math.min(...missed.map((waiter) => waiter.frameIndex)));
  }

  #startOver(frameIndex: number): void {
    void this.#start(jumpRange(frameIndex, this.#index.frames.length), frameIndex + AHEAD, true);
  }

  /** Requests that a finished run should have served: once more from the start of the clip, then they are given up. */
  #serveLeftOver(run: FrameRun, end: ProcessEnd): void {
    const [left] = [...this.#waiters].sort((a, b) => a.frameIndex - b.frameIndex);
    if (left === undefined) return;
    if (!run.fromStart && end.startError === null) {
      this.#startOver(left.frameIndex);
      return;
    }
    const failed = end.startError !== null || (end.exitCode !== 0 && !end.stopped);
    for (const waiter of this.#waiters)
      waiter.reject(
        failed
          ? processError(end, `${this.#path} could not be read; check that the file is still there.`)
          : cannotDecode(waiter.frameIndex),
      );
  }

  #stopRun(): void {
    const run = this.#run;
    if (run === null) return;
    this.#run = null;
    const ending: Promise<void> = run.stop().finally(() => this.#ending.delete(ending));
    this.#ending.add(ending);
  }

  #stayAwake(): void {
    if (this.#idleTimer !== null) clearTimeout(this.#idleTimer);
    this.#idleTimer = setTimeout(() => {
      if (this.#waiters.size === 0) this.#stopRun();
    }, this.#idleMs);
    this.#idleTimer.unref();
  }
}

function cannotDecode(frameIndex: number): AppError {
  return new AppError('clip-damaged', `Frame ${frameIndex} cannot be decoded; choose another frame.`);
}

function cancelled(): AppError {
  return new AppError('cancelled', 'Cancelled.');
}
