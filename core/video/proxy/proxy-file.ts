import { open, rm, utimes } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { crc32 } from 'node:zlib';
import { writingTrouble } from '../../files/file-trouble.ts';
import type { DecodePass } from '../../time/settle-index.ts';
import type { PipedFrame } from '../decode/frame-pipe.ts';
import { appendToCopy, dataPath, lockPath, openCopyFiles, readChecked, tablePath } from './proxy-disk.ts';
import type { OpenedCopy } from './proxy-disk.ts';
import { isHeld } from './proxy-lock.ts';
import { EMPTY_TABLE, completeLine, complainedLine, frameLine } from './proxy-table.ts';
import type { ProxyTable, TableEnd, TableFrame } from './proxy-table.ts';

/** A batch is written when it holds this much. */
const BATCH_BYTES = 1024 * 1024;
const BATCH_FRAMES = 32;

interface KeptFrame extends TableFrame {
  /** Offset in the file. */
  readonly at: number;
  /** The picture while it is not on disk. */
  readonly data: Uint8Array | null;
}

/**
 * The two files of one proxy, in the hands of one process. Anyone may read, also while it grows; one at a time
 * writes, under the lock. Pictures reach the disk before their lines, so that whatever the list says is there.
 */
export class ProxyFile {
  readonly #folder: string;
  readonly #sha256: string;
  readonly #titles: readonly string[];
  #which = 0;
  #frames = new Map<number, KeptFrame>();
  #data: FileHandle | null = null;
  #table: FileHandle | null = null;
  #end: TableEnd = EMPTY_TABLE;
  #bytesOnDisk = 0;
  #batch: KeptFrame[] = [];
  #batchBytes = 0;
  #lastPts: number | null = null;
  #complained = false;
  #result: DecodePass | null = null;
  /** A picture was not what its checksum says: nothing here is relied on when the copy is next built. */
  #spoilt = false;

  /** `titles` as `tableTitle`: a copy with any of them is taken over, and a new one gets the first. */
  constructor(folder: string, sha256: string, titles: readonly [string, ...string[]]) {
    this.#folder = folder;
    this.#sha256 = sha256;
    this.#titles = titles;
  }

  /** The place of its title among those it may have; 0 as long as there is no copy. */
  get which(): number {
    return this.#which;
  }

  get count(): number {
    return this.#frames.size;
  }

  get bytes(): number {
    return this.#bytesOnDisk + this.#batchBytes;
  }

  /** Null until the copy is whole, and again when it turns out not to be. */
  get result(): DecodePass | null {
    return this.#spoilt ? null : this.#result;
  }

  /** The latest picture that is there, in ticks. */
  get lastPts(): number | null {
    return this.#lastPts;
  }

  get complained(): boolean {
    return this.#complained;
  }

  /** Bytes that the next `flush` will write, and whether it is time for it. */
  get batch(): { readonly bytes: number; readonly full: boolean } {
    const full = this.#batchBytes >= BATCH_BYTES || this.#batch.length >= BATCH_FRAMES;
    // Lines are at most 45 bytes; the title and the last lines are short too.
    return { bytes: this.#batchBytes + 64 * (this.#batch.length + 8), full };
  }

  has(pts: number): boolean {
    return this.#frames.has(pts);
  }

  /** The picture, its own memory; null when it is not there or not what was written. */
  async read(pts: number): Promise<Uint8Array | null> {
    const [frames, file, frame] = [this.#frames, this.#data, this.#frames.get(pts)];
    if (frame === undefined) return null;
    if (frame.data !== null) return frame.data.slice();
    if (file === null) return null;
    const data = await readChecked(file, frame);
    if (data === 'spoilt' && frames === this.#frames) await this.#spoil(pts);
    return data instanceof Uint8Array ? data : null;
  }

  /** Takes over what is on disk, if it can be used; counts as use of the copy. Never rejects. */
  async load(): Promise<void> {
    const found = await this.#openFiles('r');
    await this.#takeOver(found);
    const now = new Date();
    if (found !== null) await utimes(this.#tablePath, now, now).catch(() => undefined);
  }

  /**
   * Makes the files ready to be appended to, cutting off what was not written whole; begins anew when there is nothing
   * to continue. Only under the lock. Throws AppError `disk-full`, `not-writable`.
   */
  async beginWriting(): Promise<void> {
    try {
      const found = this.#spoilt ? null : await this.#openFiles('r+');
      if (found === null) await this.#beginAnew();
      else {
        await this.#takeOver(found);
        await found.data.truncate(found.table.dataBytes);
        this.#table = await open(this.#tablePath, 'r+');
        await this.#table.truncate(found.table.length);
      }
    } catch (error) {
      throw writingTrouble(error, this.#dataPath);
    }
  }

  /** Adds a picture of a time that has none; it can be read at once. */
  add({ pts, data }: PipedFrame): void {
    if (this.#frames.has(pts)) throw new Error(`there is a picture at ${pts}`);
    const frame = { pts, bytes: data.length, crc: crc32(data), at: this.bytes, data };
    this.#frames.set(pts, frame);
    this.#batch.push(frame);
    this.#batchBytes += data.length;
    this.#lastPts = Math.max(pts, this.#lastPts ?? pts);
  }

  /** Writes what was added. Throws AppError `disk-full`, `not-writable`; what was on disk before stays good. */
  async flush(complained: boolean): Promise<void> {
    const batch = this.#batch;
    const lines = batch.map(frameLine);
    if (complained && !this.#complained) lines.push(complainedLine());
    await this.#append(Buffer.concat(batch.flatMap(({ data }) => data ?? [])), lines);
    for (const frame of batch)
      if (this.#frames.get(frame.pts) === frame) this.#frames.set(frame.pts, { ...frame, data: null });
    this.#bytesOnDisk += this.#batchBytes;
    [this.#batch, this.#batchBytes] = [[], 0];
    this.#complained ||= complained;
  }

  /**
   * Begins anew while it is written; `complained`: for pictures that come from the clip's start alone. Throws AppError
   * `disk-full`, `not-writable`.
   */
  async startOver(complained: boolean): Promise<void> {
    try {
      await this.#table?.close();
      this.#table = null;
      await this.#beginAnew(this.#which);
    } catch (error) {
      throw writingTrouble(error, this.#dataPath);
    }
    await this.flush(complained);
  }

  /** Says that nothing is missing; everything must have been flushed. */
  async complete(errors: boolean): Promise<void> {
    await this.#append(Buffer.alloc(0), [completeLine(errors)]);
    this.#result = { delivered: this.#times(), errors };
  }

  /** Ends writing; what did not reach the disk is forgotten. */
  async endWriting(): Promise<void> {
    for (const { pts } of this.#batch) this.#frames.delete(pts);
    [this.#batch, this.#batchBytes] = [[], 0];
    this.#lastPts = this.#times().at(-1) ?? null;
    const table = this.#table;
    this.#table = null;
    await table?.close();
    if (this.#spoilt) await rm(this.#tablePath, { force: true }).catch(() => undefined);
  }

  /** Lets go of the files; nothing can be read any more. */
  async close(): Promise<void> {
    await this.#takeOver(null);
  }

  get #dataPath(): string {
    return dataPath(this.#folder, this.#sha256);
  }

  get #tablePath(): string {
    return tablePath(this.#folder, this.#sha256);
  }

  async #openFiles(flags: 'r' | 'r+'): Promise<OpenedCopy | null> {
    return openCopyFiles(this.#folder, this.#sha256, this.#titles, flags);
  }

  /** Shows what was found, or nothing, instead of what was shown before. Reads under way end with the old file. */
  async #takeOver(found: OpenedCopy | null): Promise<void> {
    const before = this.#data;
    const table = found?.table ?? null;
    let at = 0;
    this.#frames = new Map();
    for (const frame of table?.frames ?? []) {
      this.#frames.set(frame.pts, { ...frame, at, data: null });
      at += frame.bytes;
    }
    this.#data = found?.data ?? null;
    this.#which = found?.which ?? 0;
    this.#end = table ?? EMPTY_TABLE;
    this.#bytesOnDisk = at;
    [this.#batch, this.#batchBytes] = [[], 0];
    this.#lastPts = this.#times().at(-1) ?? null;
    this.#complained = table?.complained ?? false;
    const complete = table?.complete ?? null;
    this.#result = complete === null ? null : { delivered: this.#times(), errors: complete.errors };
    await before?.close();
  }

  /** Of all pictures, rising. */
  #times(): number[] {
    return [...this.#frames.keys()].sort((a, b) => a - b);
  }

  async #beginAnew(which = 0): Promise<void> {
    // Made as new files: whoever has the old ones open goes on reading them.
    await rm(this.#tablePath, { force: true });
    await rm(this.#dataPath, { force: true });
    const data = await open(this.#dataPath, 'wx+');
    const table: ProxyTable = { ...EMPTY_TABLE, frames: [], dataBytes: 0, complained: false, complete: null };
    await this.#takeOver({ data, which, table });
    this.#spoilt = false;
    this.#table = await open(this.#tablePath, 'wx');
    await this.#append(Buffer.alloc(0), this.#titles.slice(which, which + 1));
  }

  async #append(data: Uint8Array, lines: readonly string[]): Promise<void> {
    const [file, table] = [this.#data, this.#table];
    if (file === null || table === null) throw new Error('the copy is not open for writing');
    const at = { data: this.#bytesOnDisk, list: this.#end };
    try {
      this.#end = await appendToCopy({ data: file, list: table }, at, data, lines);
    } catch (error) {
      throw writingTrouble(error, this.#dataPath);
    }
  }

  /**
   * One picture is not what was written, so none is relied on any more, though those that hold are shown until the copy
   * is built anew. The list is deleted, so that other runs of the program know; not while somebody is writing it.
   */
  async #spoil(pts: number): Promise<void> {
    this.#frames.delete(pts);
    if (this.#spoilt) return;
    this.#spoilt = true;
    if (await isHeld(lockPath(this.#folder, this.#sha256))) return;
    await rm(this.#tablePath, { force: true }).catch(() => undefined);
  }
}
