import { open, rm, utimes } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { writingTrouble } from '../../files/file-trouble.ts';
import type { DecodePass } from '../../time/settle-index.ts';
import type { PipedFrame } from '../decode/frame-pipe.ts';
import { CopyPictures } from './copy-pictures.ts';
import { appendToCopy, dataPath, lockPath, openCopyFiles, readChecked, tablePath } from './proxy-disk.ts';
import type { OpenedCopy } from './proxy-disk.ts';
import { isHeld } from './proxy-lock.ts';
import { EMPTY_TABLE, completeLine, complainedLine, frameLine } from './proxy-table.ts';
import type { ProxyTable, TableEnd } from './proxy-table.ts';

/**
 * The two files of one proxy, in the hands of one process. Anyone may read, also while it grows; one at a time
 * writes, under the lock. Pictures reach the disk before their lines, so that whatever the list says is there.
 */
export class ProxyFile {
  readonly #folder: string;
  readonly #sha256: string;
  readonly #titles: readonly string[];
  #which = 0;
  #pictures = new CopyPictures([]);
  #data: FileHandle | null = null;
  #table: FileHandle | null = null;
  #end: TableEnd = EMPTY_TABLE;
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
    return this.#pictures.count;
  }

  get bytes(): number {
    return this.#pictures.bytes;
  }

  /** Null until the copy is whole, and again when it turns out not to be. */
  get result(): DecodePass | null {
    return this.#spoilt ? null : this.#result;
  }

  /** The latest picture that is there, in ticks. */
  get lastPts(): number | null {
    return this.#pictures.lastPts;
  }

  get complained(): boolean {
    return this.#complained;
  }

  /** Bytes that the next `flush` will write, and whether it is time for it. */
  get batch(): { readonly bytes: number; readonly full: boolean } {
    const { frames, bytes, full } = this.#pictures.batch;
    // Lines are at most 45 bytes; the title and the last lines are short too.
    return { bytes: bytes + 64 * (frames.length + 8), full };
  }

  has(pts: number): boolean {
    return this.#pictures.has(pts);
  }

  /** The picture, its own memory; null when it is not there or not what was written. */
  async read(pts: number): Promise<Uint8Array | null> {
    const [pictures, file, frame] = [this.#pictures, this.#data, this.#pictures.get(pts)];
    if (frame === undefined) return null;
    if (frame.data !== null) return frame.data.slice();
    if (file === null) return null;
    const data = await readChecked(file, frame);
    if (data === 'spoilt' && pictures === this.#pictures) await this.#spoil(pts);
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
  add(picture: PipedFrame): void {
    this.#pictures.add(picture);
  }

  /** Writes what was added. Throws AppError `disk-full`, `not-writable`; what was on disk before stays good. */
  async flush(complained: boolean): Promise<void> {
    const pictures = this.#pictures;
    const batch = [...pictures.batch.frames];
    const lines = batch.map(frameLine);
    if (complained && !this.#complained) lines.push(complainedLine());
    await this.#append(Buffer.concat(batch.flatMap(({ data }) => data ?? [])), lines);
    pictures.written(batch);
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
    this.#result = { delivered: this.#pictures.times(), errors };
  }

  /** Ends writing; what did not reach the disk is forgotten. */
  async endWriting(): Promise<void> {
    this.#pictures.forgetBatch();
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
    this.#pictures = new CopyPictures(table?.frames ?? []);
    this.#data = found?.data ?? null;
    this.#which = found?.which ?? 0;
    this.#end = table ?? EMPTY_TABLE;
    this.#complained = table?.complained ?? false;
    const complete = table?.complete ?? null;
    this.#result = complete === null ? null : { delivered: this.#pictures.times(), errors: complete.errors };
    await before?.close();
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
    const at = { data: this.#pictures.bytesOnDisk, list: this.#end };
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
    this.#pictures.drop(pts);
    if (this.#spoilt) return;
    this.#spoilt = true;
    if (await isHeld(lockPath(this.#folder, this.#sha256))) return;
    await rm(this.#tablePath, { force: true }).catch(() => undefined);
  }
}
