import { rawBytes } from '../../model/picture-layout.ts';
import type { PictureLayout } from '../../model/picture-layout.ts';
import type { FrameSpan } from '../../model/frame.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { frameWithPts } from '../../time/frame-table.ts';
import type { ClipSource } from '../index/clip-source.ts';
import { entrySeconds } from '../index/entry-point.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { readFramePipe, soonPipeArguments } from './frame-pipe.ts';
import { startFfmpeg } from '../process/run-ffmpeg.ts';
import type { FfmpegProcess, ProcessEnd } from '../process/run-ffmpeg.ts';
import { QUICK_DECODING } from '../proxy/proxy-encoder.ts';
import { LARGEST_SIDE } from '../proxy/proxy-size.ts';
import type { PictureSide } from '../proxy/proxy-size.ts';
import { shownPictures } from './shown-pictures.ts';

/** A run waits for its reader most of its life; the window ends it when it has been idle. */
const RUN_LIMIT_MS = 6 * 60 * 60_000;

/**
 * One ffmpeg that makes the pictures of a range of frames in order. It is read only as far as it was told to go; then the
 * pipe is full and ffmpeg stands still, ready to go on without decoding anything twice.
 */
export class FrameDecoder {
  readonly range: FrameSpan;
  readonly fromStart: boolean;
  /** The frame that comes next, if the clip delivers all. */
  next: number;
  readonly #run: FfmpegProcess;
  readonly #index: ClipIndex;
  readonly #bytes: number | null;
  #goal: number;
  #wake: (() => void) | null = null;

  /** `fromStart` decodes the clip from its first byte instead of from the key picture before the range. */
  constructor(
    source: ClipSource,
    index: ClipIndex,
    ffmpeg: Ffmpeg,
    range: FrameSpan,
    options: {
      readonly kind: PictureLayout['kind'];
      readonly goal: number;
      readonly fromStart: boolean;
      /** Of proxy pictures; the largest when not given. */
      readonly longest?: PictureSide;
    },
  ) {
    this.range = range;
    this.fromStart = options.fromStart;
    this.next = range.from;
    this.#goal = options.goal;
    this.#index = index;
    this.#bytes = rawBytes({ kind: options.kind, width: index.width, height: index.height });

    const [first, last] = [index.frames[range.from]?.pts ?? 0, index.frames[range.to]?.pts ?? 0];
    const enterAt = options.fromStart ? null : entrySeconds(index, source.format, range.from);
    const { kind, longest = LARGEST_SIDE } = options;
    const shown = shownPictures(source, index, ffmpeg, { kind, first, last, enterAt, longest });
    const args = ['-v', 'error', ...(kind === 'proxy' ? QUICK_DECODING : []), ...shown.args];
    args.push('-frames:v', String(range.to - range.from + 1), ...soonPipeArguments(kind));
    this.#run = startFfmpeg(ffmpeg, args, { timeLimitMs: RUN_LIMIT_MS, folder: shown.folder });
  }

  /** How far it is read at present; only ever farther. */
  readUpTo(frameIndex: number): void {
    this.#goal = Math.max(this.#goal, Math.min(frameIndex, this.range.to));
    if (this.next <= this.#goal) this.#wake?.();
  }

  /** Hands every frame to `deliver` as it comes. Resolves when the range is done, or ffmpeg ended, or it was stopped. */
  async pump(deliver: (frameIndex: number, data: Uint8Array) => void): Promise<ProcessEnd> {
    let done = false;
    try {
      for await (const { pts, data } of readFramePipe(this.#run.output)) {
        const frameIndex = frameWithPts(this.#index, pts);
        // Bytes of another size would show as a sheared picture; the frame counts as one that did not come.
        if (frameIndex === null || data.length !== (this.#bytes ?? data.length)) continue;
        this.next = frameIndex + 1;
        deliver(frameIndex, data);
        done = frameIndex >= this.range.to;
        if (done) break;
        if (this.next > this.#goal) await new Promise<void>((resolve) => (this.#wake = resolve));
        this.#wake = null;
      }
    } catch {
      // A pipe that broke off or was destroyed; how the process ended says why.
    }
    // One that broke off is left to end by itself, so that its exit code tells why.
    if (done) this.#run.stop();
    return this.#run.end;
  }

  async stop(): Promise<void> {
    this.#run.stop();
    this.#wake?.();
    await this.#run.end;
  }
}
