import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import type { PictureLayout, PictureQuality } from '../../model/picture-layout.ts';
import type { FrameSpan } from '../../model/frame.ts';
import { MADE_AHEAD } from '../../model/read-ahead.ts';
import type { WindowReach } from '../../model/read-ahead.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { entryFrame } from '../../time/frame-table.ts';
import { readIndexedSource } from '../index/clip-source.ts';
import type { ClipSource } from '../index/clip-source.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { createFrameCache } from './frame-cache.ts';
import type { FrameCache } from './frame-cache.ts';
import { FrameDecoder } from './frame-decoder.ts';
import { layoutOf } from './layout-of.ts';
import { processError } from '../process/run-ffmpeg.ts';
import type { ProcessEnd } from '../process/run-ffmpeg.ts';
import { LARGEST_SIDE } from '../proxy/proxy-size.ts';
import type { PictureSide } from '../proxy/proxy-size.ts';
import { jumpRange, prepareRange, reachesSoon } from './window-plan.ts';

export interface FrameWindowOptions {
  readonly ffmpeg: Ffmpeg;
  /** `proxy`: small pictures for moving through the clip. `sharp`: the exact frames at full size. */
  readonly kind: PictureQuality;
  /** How to get at the pictures, asked once, when the first is to be made; `readIndexedSource` when not given. */
  readonly source?: () => Promise<ClipSource>;
  /** Of proxy pictures; the largest when not given. */
  readonly longest?: PictureSide;
  /** Shared by all windows when not given, 256 MB in all. */
  readonly cache?: FrameCache;
  /** Milliseconds without a request after which the ffmpeg that stands ready is ended. */
  readonly idleMs?: number;
}

/** `layout` is the same for all pictures of one window. */
export interface WindowPicture {
  readonly layout: PictureLayout;
  readonly data: Uint8Array;
}

/** Pictures of one clip around the frame that is looked at, from an ffmpeg that stands ready. */
export interface FrameWindow {
  /**
   * The picture of a frame. One near the last one asked for is there at once. The newest request wins: an older one
   * whose frame is out of reach of the newest is rejected as `cancelled`.
   *
   * Rejects with AppError: `no-such-frame`, `cancelled`, `clip-damaged`, `clip-changed`, `ffmpeg-failed`, and as `readIndexedSource`.
   */
  frame(frameIndex: number, options?: { readonly signal?: AbortSignal | undefined }): Promise<WindowPicture>;
  /** The picture if it is kept already, else null; starts nothing. */
  kept(frameIndex: number): WindowPicture | null;
  /** Keeps a picture of a frame that was made elsewhere. */
  keep(frameIndex: number, picture: WindowPicture): void;
  /** Whether a picture that somebody waits for is being made. */
  readonly busy: boolean;
  /** Ends what is running and forgets the pictures; requests under way are rejected as `cancelled`. */
  close(): Promise<void>;
}

interface Waiter {
  readonly frameIndex: number;
  readonly resolve: (data: Uint8Array) => void;
  readonly reject: (error: unknown) => void;
}

const IDLE_MS = 15_000;
/** A hand that moves on withdraws a frame just before it asks for the next one, which the same ffmpeg may reach. */
const UNWANTED_MS = 40;
const sharedCache = createFrameCache(256 * 1024 * 1024);
let windows = 0;

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
  readonly #kind: PictureQuality;
  readonly #reach: WindowReach;
  readonly #longest: PictureSide;
  #layout: PictureLayout | null = null;
  /** Owns its pictures in the shared cache. */
  readonly #owner = `${(windows += 1)}/`;
  readonly #readSource: () => Promise<ClipSource>;
  #source: Promise<ClipSource> | null = null;
  readonly #waiters = new Set<Waiter>();
  #run: FrameDecoder | null = null;
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
    this.#kind = options.kind;
    this.#readSource = options.source ?? (() => readIndexedSource(path, index, options));
    this.#longest = options.longest ?? LARGEST_SIDE;
    this.#reach = MADE_AHEAD[options.kind];
  }

  get busy(): boolean {
    return this.#waiters.size > 0;
  }

  kept(frameIndex: number): WindowPicture | null {
    const data = this.#cache.get(this.#key(frameIndex));
    return data === undefined || this.#layout === null ? null : { layout: this.#layout, data };
  }

  keep(frameIndex: number, { layout, data }: WindowPicture): void {
    if (this.#closed) return;
    this.#layout = layout;
    this.#cache.set(this.#key(frameIndex), data);
  }

  async frame(frameIndex: number, options: { readonly signal?: AbortSignal | undefined } = {}): Promise<WindowPicture> {
    const data = await this.#data(frameIndex, options);
    if (this.#layout === null) throw new Error('a picture came before its layout was known');
    return { layout: this.#layout, data };
  }

  async #data(frameIndex: number, options: { readonly signal?: AbortSignal | undefined }): Promise<Uint8Array> {
    const count = this.#index.frames.length;
    if (this.#index.frames[frameIndex] === undefined)
      throw new AppError('no-such-frame', say`There is no frame ${frameIndex}; the clip has frames 0 to ${count - 1}.`);
    if (this.#closed || options.signal?.aborted === true) throw cancelled();

    this.#stayAwake();
    const previous = this.#previous;
    this.#previous = frameIndex;
    const kept = this.#cache.get(this.#key(frameIndex));
    if (kept !== undefined) {
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
        setTimeout(() => this.#stopUnwanted(frameIndex), UNWANTED_MS).unref();
      };
      options.signal?.addEventListener('abort', abort, { once: true });
      this.#waiters.add(waiter);
      const [run, planned] = [this.#run, this.#planned];
      const goal = frameIndex + this.#reach.ahead;
      if (run !== null && this.#reachesSoon({ next: run.next, to: run.range.to }, frameIndex)) run.readUpTo(goal);
      else if (planned !== null && this.#reachesSoon(planned, frameIndex)) planned.goal = Math.max(planned.goal, goal);
      else if (this.#reach.aheadAfterMs === 0) void this.#start(this.#jumpRange(frameIndex), goal, false);
      else void this.#start(this.#jumpRange(frameIndex), frameIndex, false, goal);
    });
  }

  async close(): Promise<void> {
    this.#closed = true;
    if (this.#idleTimer !== null) clearTimeout(this.#idleTimer);
    for (const waiter of this.#waiters) waiter.reject(cancelled());
    this.#stopRun();
    for (const key of this.#cache.keys()) if (key.startsWith(this.#owner)) this.#cache.delete(key);
    await Promise.all(this.#ending);
  }

  #key(frameIndex: number): string {
    return `${this.#owner}${String(frameIndex)}`;
  }

  #reachesSoon(run: { readonly next: number; readonly to: number }, frameIndex: number): boolean {
    return reachesSoon(run, frameIndex, this.#entry(frameIndex), this.#reach);
  }

  #jumpRange(frameIndex: number): FrameSpan {
    return jumpRange(frameIndex, this.#entry(frameIndex), this.#index.frames.length, this.#reach);
  }

  #entry(frameIndex: number): number {
    return entryFrame(this.#index, frameIndex) ?? 0;
  }

  /** Goes on ahead, or behind, of a frame that was there. */
  #prepare(frameIndex: number, previous: number | null): void {
    if (this.#planned !== null) return;
    const run = this.#run;
    const { ahead } = this.#reach;
    const back = previous !== null && frameIndex < previous;
    if (!back && run !== null && run.next <= run.range.to && Math.abs(run.next - frameIndex) <= ahead) {
      run.readUpTo(frameIndex + ahead);
      return;
    }
    // A request under way matters more than what might be asked for next.
    if (this.#waiters.size > 0) return;
    const has = (i: number): boolean => this.#cache.has(this.#key(i));
    const range = prepareRange(frameIndex, previous, this.#index.frames.length, this.#reach, has);
    if (range === null) return;
    const missing = back ? range.to : range.from;
    const coming = run !== null && run.next <= missing && missing <= run.range.to;
    if (coming && (back || missing - run.next <= ahead)) run.readUpTo(missing);
    else void this.#start(range, back ? range.to : range.from + ahead, false);
  }

  /**
   * Replaces what is running. Requests that the new run does not reach are rejected. `then` is how far it goes on once `goal`
   * is there and the page has had its time with it.
   */
  async #start(range: FrameSpan, goal: number, fromStart: boolean, then = goal): Promise<void> {
    this.#stopRun();
    for (const waiter of this.#waiters)
      if (waiter.frameIndex < range.from || waiter.frameIndex > goal) waiter.reject(cancelled());
    // Whoever starts later wins, also when the facts of the clip come late.
    const planned = { next: range.from, to: range.to, goal };
    this.#planned = planned;
    let source: ClipSource;
    try {
      this.#source ??= this.#readSource();
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
    const layout = layoutOf(this.#kind, this.#index, source, this.#longest);
    this.#layout = layout;
    const run = new FrameDecoder(source, this.#index, this.#ffmpeg, range, {
      kind: layout.kind,
      longest: this.#longest,
      goal: Math.min(planned.goal, range.to),
      fromStart,
    });
    this.#run = run;
    const end = await run.pump((frameIndex, data) => {
      if (this.#run !== run) return;
      this.#cache.set(this.#key(frameIndex), data);
      for (const waiter of this.#waiters) if (waiter.frameIndex === frameIndex) waiter.resolve(data);
      this.#serveMissed(run, frameIndex);
      if (frameIndex === goal && then > goal)
        setTimeout(() => this.#run === run && run.readUpTo(then), this.#reach.aheadAfterMs).unref();
    });
    if (this.#run !== run) return;
    this.#run = null;
    this.#serveLeftOver(run, end);
  }

  /** Requests that a run has passed without delivering: it could not decode them from where it entered. */
  #serveMissed(run: FrameDecoder, delivered: number): void {
    const missed = [...this.#waiters].filter(
      ({ frameIndex }) => frameIndex >= run.range.from && frameIndex < delivered,
    );
    if (missed.length === 0) return;
    if (run.fromStart) for (const waiter of missed) waiter.reject(cannotDecode(waiter.frameIndex));
    else this.#startOver(Math.min(...missed.map((waiter) => waiter.frameIndex)));
  }

  #startOver(frameIndex: number): void {
    void this.#start(this.#jumpRange(frameIndex), frameIndex + this.#reach.ahead, true);
  }

  /** Requests that a finished run should have served: once more from the start of the clip, then they are given up. */
  #serveLeftOver(run: FrameDecoder, end: ProcessEnd): void {
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
          ? processError(end, say`${this.#path} could not be read; check that the file is still there.`)
          : cannotDecode(waiter.frameIndex),
      );
  }

  /**
   * A withdrawn request was what ffmpeg is still on its way to, and no other has come: decoding on would only take the
   * machine from what is asked for next.
   */
  #stopUnwanted(frameIndex: number): void {
    if (this.#waiters.size > 0) return;
    this.#planned = null;
    if (this.#run !== null && this.#run.next <= frameIndex) this.#stopRun();
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
      // Somebody still waits for a picture that takes long; the time without a request begins after it.
      if (this.#waiters.size > 0) this.#stayAwake();
      else this.#stopRun();
    }, this.#idleMs);
    this.#idleTimer.unref();
  }
}

function cannotDecode(frameIndex: number): AppError {
  return new AppError('clip-damaged', say`Frame ${frameIndex} cannot be decoded; choose another frame.`);
}

function cancelled(): AppError {
  return new AppError('cancelled', say`Cancelled.`);
}
