import { existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import * as v from 'valibot';
import { writingTrouble } from '../files/file-trouble.ts';
import { identifier } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import { noSuch } from './no-such.ts';
import { rowsFromText } from './row-tree.ts';

const idRow = v.pipe(
  v.strictObject({ id: v.string() }),
  v.transform(({ id }) => id),
);
const rowsRow = v.pipe(
  v.strictObject({ rows: v.string() }),
  v.transform(({ rows }) => rows),
);

/**
 * Where talk-throughs lie: a folder a swing, beside the media folder. It stays as long as its swing is in the book or can
 * be put back, with its lesson and student, and is deleted with it for good.
 */
export class TalkFolders {
  readonly #path: string;
  readonly #database: BookDatabase;

  constructor(path: string, database: BookDatabase) {
    this.#path = path;
    this.#database = database;
  }

  /**
   * The folder of a swing's talk-through, made where it is missing.
   * @throws AppError `no-such-record`, `disk-full`, `not-writable`.
   */
  take(swingId: string): string {
    if (this.#database.one(idRow, 'SELECT id FROM swing WHERE id = ?', swingId) === null)
      throw noSuch('swing', swingId);
    const folder = join(this.#path, swingId);
    try {
      mkdirSync(folder, { recursive: true });
    } catch (error) {
      throw writingTrouble(error, folder);
    }
    return folder;
  }

  /** Deletes the folder of a swing with all that is in it. @throws AppError `not-writable`. */
  remove(swingId: string): void {
    const folder = join(this.#path, swingId);
    try {
      rmSync(folder, { recursive: true, force: true });
    } catch (error) {
      throw writingTrouble(error, folder);
    }
  }

  /** Deletes what belongs to no swing any more. What cannot be deleted now goes at the next opening. */
  sweep(): void {
    if (!existsSync(this.#path)) return;
    const kept = new Set([...this.#database.all(idRow, 'SELECT id FROM swing'), ...this.#inBin()]);
    for (const name of readdirSync(this.#path)) {
      // Other names are not ours.
      if (!v.is(identifier, name) || kept.has(name)) continue;
      try {
        rmSync(join(this.#path, name), { recursive: true, force: true });
      } catch {
        continue;
      }
    }
  }

  /** Swings that can be put back. */
  #inBin(): readonly string[] {
    return this.#database.all(rowsRow, 'SELECT rows FROM bin_entry').flatMap((text) =>
      rowsFromText(this.#database, text)
        .filter(({ table }) => table === 'swing')
        .map(({ cells }) => String(cells['id'])),
    );
  }
}
