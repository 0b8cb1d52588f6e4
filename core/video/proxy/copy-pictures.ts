import { crc32 } from 'node:zlib';
import type { PipedFrame } from '../decode/frame-pipe.ts';
import type { TableFrame } from './proxy-table.ts';

/** A batch is written when it holds this much. */
const BATCH_BYTES = 1024 * 1024;
const BATCH_FRAMES = 32;

interface KeptFrame extends TableFrame {
  /** Offset in the file. */
  readonly at: number;
  /** The picture while it is not on disk. */
  readonly data: Uint8Array | null;
}

/** Which pictures a copy has, by their times in ticks: on disk one after the other, and behind them a batch that is not yet. */
export class CopyPictures {
  readonly #frames = new Map<number, KeptFrame>();
  #batch: KeptFrame[] = [];
  #batchBytes = 0;
  #bytesOnDisk = 0;
  #lastPts: number | null = null;

  /** `onDisk` in the order of their bytes. */
  constructor(onDisk: readonly TableFrame[]) {
    for (const frame of onDisk) {
      this.#frames.set(frame.pts, { ...frame, at: this.#bytesOnDisk, data: null });
      this.#bytesOnDisk += frame.bytes;
    }
    this.#lastPts = this.times().at(-1) ?? null;
  }

  get count(): number {
    return this.#frames.size;
  }

  get bytes(): number {
    return this.#bytesOnDisk + this.#batchBytes;
  }

  get bytesOnDisk(): number {
    return this.#bytesOnDisk;
  }

  /** The latest picture that is there. */
  get lastPts(): number | null {
    return this.#lastPts;
  }

  /** Those that are not on disk, and whether it is time for it. */
  get batch(): { readonly frames: readonly KeptFrame[]; readonly bytes: number; readonly full: boolean } {
    const full = this.#batchBytes >= BATCH_BYTES || this.#batch.length >= BATCH_FRAMES;
    return { frames: this.#batch, bytes: this.#batchBytes, full };
  }

  has(pts: number): boolean {
    return this.#frames.has(pts);
  }

  get(pts: number): KeptFrame | undefined {
    return this.#frames.get(pts);
  }

  /** Of all pictures, rising. */
  times(): number[] {
    return [...this.#frames.keys()].sort((a, b) => a - b);
  }

  /** Adds a picture of a time that has none. */
  add({ pts, data }: PipedFrame): void {
    if (this.#frames.has(pts)) throw new Error(`there is a picture at ${pts}`);
    const frame = { pts, bytes: data.length, crc: crc32(data), at: this.bytes, data };
    this.#frames.set(pts, frame);
    this.#batch.push(frame);
    this.#batchBytes += data.length;
    this.#lastPts = Math.max(pts, this.#lastPts ?? pts);
  }

  /** These, which came first, are on disk now. */
  written(frames: readonly KeptFrame[]): void {
    for (const frame of frames) {
      // One that was spoilt meanwhile stays away.
      if (this.#frames.get(frame.pts) === frame) this.#frames.set(frame.pts, { ...frame, data: null });
      this.#bytesOnDisk += frame.bytes;
      this.#batchBytes -= frame.bytes;
    }
    this.#batch = this.#batch.slice(frames.length);
  }

  /** What did not reach the disk is forgotten. */
  forgetBatch(): void {
    for (const { pts } of this.#batch) this.#frames.delete(pts);
    [this.#batch, this.#batchBytes] = [[], 0];
    this.#lastPts = this.times().at(-1) ?? null;
  }

  /** One is not what was written. */
  drop(pts: number): void {
    this.#frames.delete(pts);
  }
}
