import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import { MADE_AHEAD } from '../../model/read-ahead.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { entryFrame } from '../../time/frame-table.ts';
import { readIndexedSource, type ClipSource, type ReadOptions } from '../index/clip-source.ts';
import { endedWell, requireSuccess, type ProcessEnd } from '../process/run-ffmpeg.ts';
import { createFrameCache } from './frame-cache.ts';
import { FrameDecoder } from './frame-decoder.ts';
import { reachesSoon } from './window-plan.ts';

/** Frames of a clip one after the other, in an order that is known beforehand. */
export interface PictureSequence {
  /**
   * One of the wanted frames, asked for in their order: RGBA, upright, square pixels, the same bytes as a still.
   * @throws AppError `no-such-frame`, `clip-damaged` when it cannot be decoded, `cancelled`, `ffmpeg-missing`.
   */
  picture(frame: number): Promise<Uint8Array>;
  close(): Promise<void>;
}

/** Frames of a stretch that is gone through backward are made in one go, so many at a time. */
const BACK_STRETCH = 10;
/** Enough for such a stretch of the largest usual clips; what is larger is decoded again. */
const KEPT_BYTES = 100 * 1024 * 1024;

/** Opens a clip for the frames `wanted`, by index, in that order; each must be in the clip. */
export async function openPictureSequence(
  path: string,
  index: ClipIndex,
  wanted: readonly number[],
  options: ReadOptions,
): Promise<PictureSequence> {
  return new Sequence(await readIndexedSource(path, index, options), index, wanted, options);
}

class Sequence implements PictureSequence {
  readonly #source: ClipSource;
  readonly #index: ClipIndex;
  readonly #wanted: readonly number[];
  readonly #options: ReadOptions;
  readonly #cache = createFrameCache(KEPT_BYTES);
  #at = 0;
  #run: FrameDecoder | null = null;
  #asked: { readonly frame: number; readonly resolve: (data: Uint8Array | null) => void } | null = null;

  constructor(source: ClipSource, index: ClipIndex, wanted: readonly number[], options: ReadOptions) {
    this.#source = source;
    this.#index = index;
    this.#wanted = wanted;
    this.#options = options;
  }

  async picture(frame: number): Promise<Uint8Array> {
    if (this.#index.frames[frame] === undefined)
      throw new AppError('no-such-frame', say`${this.#source.path} has no frame ${frame}. Choose another frame.`);
    const at = Math.max(this.#at, this.#wanted.indexOf(frame, this.#at));
    this.#at = at + 1;
    const kept = this.#cache.get(String(frame));
    if (kept !== undefined) return kept;
    const data = (await this.#decode(frame, at, false)) ?? (await this.#decode(frame, at, true));
    if (data !== null) return data;
    throw new AppError(
      'clip-damaged',
      say`Frame ${frame} of ${this.#source.path} cannot be decoded; choose another frame.`,
    );
  }

  async close(): Promise<void> {
    const run = this.#run;
    this.#run = null;
    this.#cache.clear();
    await run?.stop();
  }

  /** The picture, or null when the run ended without it. */
  async #decode(frame: number, at: number, fromStart: boolean): Promise<Uint8Array | null> {
    const going = this.#run;
    const entry = entryFrame(this.#index, frame) ?? 0;
    const reach = MADE_AHEAD.sharp;
    const asked = new Promise<Uint8Array | null>((resolve) => (this.#asked = { frame, resolve }));
    if (!fromStart && going !== null && reachesSoon({ next: going.next, to: going.range.to }, frame, entry, reach)) {
      going.readUpTo(frame);
      return asked;
    }
    this.#run = null;
    await going?.stop();
    const { ffmpeg, signal } = this.#options;
    if (signal?.aborted === true) throw new AppError('cancelled', say`Cancelled.`);
    const range = { from: this.#lowestSoon(frame, at), to: this.#index.frames.length - 1 };
    const run = new FrameDecoder(this.#source, this.#index, ffmpeg, range, { kind: 'rgba', goal: frame, fromStart });
    this.#run = run;
    const stop = (): void => void run.stop();
    signal?.addEventListener('abort', stop, { once: true });
    const ended = run
      .pump((delivered, data) => {
        if (this.#wanted.slice(this.#at, this.#at + BACK_STRETCH).includes(delivered))
          this.#cache.set(String(delivered), data);
        if (delivered !== this.#asked?.frame) return;
        this.#asked.resolve(data);
        this.#asked = null;
      })
      .finally(() => signal?.removeEventListener('abort', stop));
    void ended.then(() => this.#ended(run));
    return Promise.race([asked, ended.then((end) => this.#troubleOf(end))]);
  }

  #ended(run: FrameDecoder): void {
    if (this.#run !== run) return;
    this.#run = null;
    this.#asked?.resolve(null);
    this.#asked = null;
  }

  /** Throws when ffmpeg never ran; else what was asked for did not come. */
  #troubleOf(end: ProcessEnd): null {
    if (this.#options.signal?.aborted === true) throw new AppError('cancelled', say`Cancelled.`);
    if (!endedWell(end)) requireSuccess(end);
    return null;
  }

  /** Where decoding begins so that the next frames of a stretch that runs backward come along. */
  #lowestSoon(frame: number, at: number): number {
    let lowest = frame;
    for (const next of this.#wanted.slice(at + 1, at + BACK_STRETCH)) {
      if (next > frame || next <= frame - BACK_STRETCH) break;
      lowest = Math.min(lowest, next);
    }
    return lowest;
  }
}
