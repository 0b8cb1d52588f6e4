import { randomUUID } from 'node:crypto';
import { mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import { basename, join } from 'node:path';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { isAbsent, writingTrouble } from '../files/file-trouble.ts';
import type { BookDatabase } from './database.ts';
import type { TalkFolders } from './talk-folders.ts';
import { clearTracesInBook, noteTraces } from './traces.ts';

/** Where the bytes of a clip are, as `storeClipFile` left them. */
export interface StoredClipFile {
  readonly sha256: string;
  readonly bytes: number;
  /** Absolute. */
  readonly path: string;
  readonly how: 'copied' | 'linked';
  /** Milliseconds since 1970 of the last change to the file at `path`. */
  readonly modifiedMs: number;
}

/** A file (or a folder with one) on its way into the media folder; it counts for nothing until it is renamed. */
export const INCOMING_SUFFIX = '.incoming';

const fileRow = v.strictObject({ file: v.string() });

/** Named by clips of the book, or by such that can be put back into it. */
export const COPIES_IN_USE = "SELECT file FROM clip WHERE stored = 'copied' UNION SELECT file FROM bin_file";

/**
 * The book's own copies of clips: files named by their content, shared by the clips that have that content. Rows and
 * files cannot change in one step, so a removal first notes the file as unwanted, together with the rows, and then
 * deletes it; what a kill leaves undone is done at the next opening. Files nobody noted are never touched.
 */
export class MediaFolder {
  readonly path: string;
  readonly #database: BookDatabase;
  readonly #talks: TalkFolders;

  constructor(path: string, database: BookDatabase, talks: TalkFolders) {
    this.path = path;
    this.#database = database;
    this.#talks = talks;
  }

  /** Makes the folder where it is missing, and clears what a killed import or removal left. */
  prepare(): void {
    try {
      mkdirSync(this.path, { recursive: true });
      for (const name of readdirSync(this.path))
        if (name.endsWith(INCOMING_SUFFIX)) rmSync(join(this.path, name), { recursive: true });
    } catch (error) {
      throw writingTrouble(error, this.path);
    }
    this.#deleteUnwanted();
  }

  /**
   * Lends a new folder on the media folder's own disk for a file that is made before it is stored. It is deleted when
   * `work` ends, and after a kill at the next opening.
   */
  async withWorkFolder<Result>(work: (folder: string) => Promise<Result>): Promise<Result> {
    const folder = join(this.path, `${randomUUID()}${INCOMING_SUFFIX}`);
    try {
      await mkdir(folder);
      return await work(folder);
    } catch (error) {
      throw writingTrouble(error, this.path);
    } finally {
      // What cannot be deleted now (open elsewhere, on Windows) goes at the next opening.
      await rm(folder, { recursive: true, force: true }).catch(() => undefined);
    }
  }

  /**
   * Runs a removal of rows, and returns what it returns; the media files that no clip uses and the talk-throughs of no
   * swing are deleted afterwards, and what is left of the rows in the book's file as well. What the program keeps outside of the book is for the program to clear (`TraceOperations`).
   */
  removing<Result>(removeRows: () => Result): Result {
    const result = this.#database.write(() => {
      const before = this.#database.all(fileRow, COPIES_IN_USE).map((row) => row.file);
      const removed = removeRows();
      const after = new Set(this.#database.all(fileRow, COPIES_IN_USE).map((row) => row.file));
      for (const file of before)
        if (!after.has(file)) this.#database.run('INSERT OR IGNORE INTO unwanted_media (file) VALUES (?)', file);
      noteTraces(this.#database);
      return removed;
    });
    this.#deleteUnwanted();
    clearTracesInBook(this.#database);
    return result;
  }

  /**
   * Takes a stored file into use by a row that is being written; returns what its `file` cell holds.
   * @throws AppError `file-not-found` when it was deleted since it was stored.
   */
  keep(file: StoredClipFile): string {
    if (statSync(file.path, { throwIfNoEntry: false })?.size !== file.bytes)
      throw new AppError('file-not-found', say`${file.path} is gone or has changed. Add the clip again.`);
    if (file.how === 'linked') return file.path;
    const name = basename(file.path);
    if (file.path !== join(this.path, name)) throw new Error('a copied clip must lie in the media folder');
    this.#database.run('DELETE FROM unwanted_media WHERE file = ?', name);
    return name;
  }

  /**
   * Deletes a copy that was stored and then not taken into use, unless a clip uses that content. It is only noted when
   * it cannot be deleted now: a full disk, which may be why it was not taken, has no room for a note either.
   */
  discard(file: StoredClipFile): void {
    const name = basename(file.path);
    if (file.how === 'linked' || file.path !== join(this.path, name)) return;
    const used = `SELECT file FROM (${COPIES_IN_USE}) WHERE file = ? LIMIT 1`;
    if (this.#database.one(fileRow, used, name) !== null) return;
    try {
      rmSync(file.path, { force: true });
    } catch {
      this.#database.run('INSERT OR IGNORE INTO unwanted_media (file) VALUES (?)', name);
    }
  }

  /** The file in the folder with that content, or null. */
  find(sha256: string, bytes: number): string | null {
    const name = readdirSync(this.path).find(
      (entry) => entry.startsWith(`${sha256}.`) && !entry.endsWith(INCOMING_SUFFIX),
    );
    if (name === undefined) return null;
    const path = join(this.path, name);
    return statSync(path, { throwIfNoEntry: false })?.size === bytes ? path : null;
  }

  /** With the talk-throughs that belong to no swing any more. A file that cannot be deleted now (open elsewhere, on Windows) stays noted for the next opening. */
  #deleteUnwanted(): void {
    this.#talks.sweep();
    for (const { file } of this.#database.all(fileRow, 'SELECT file FROM unwanted_media')) {
      if (file !== basename(file)) continue;
      try {
        rmSync(join(this.path, file));
      } catch (error) {
        if (!isAbsent(error)) continue;
      }
      this.#database.run('DELETE FROM unwanted_media WHERE file = ?', file);
    }
  }
}
