import { mkdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { writeWholeFile } from '../../core/files/write-whole-file.ts';

/**
 * What is dragged out of the window needs a file that stays until whoever gets it has copied it. One at a time lies in this
 * folder; the next, a removal from the book, and the end and the start of the program take it away.
 */
export class Outgoing {
  readonly #folder: string;
  /** What was asked for before is done before. */
  #done: Promise<unknown> = Promise.resolve();

  constructor(folder: string) {
    this.#folder = folder;
  }

  /** Writes the file, in place of the one before; `name` is a plain file name. @throws AppError `disk-full`, `not-writable`. */
  put(name: string, bytes: Uint8Array): Promise<string> {
    return this.#next(async () => {
      await this.#remove();
      await mkdir(this.#folder, { recursive: true });
      const path = join(this.#folder, name);
      await writeWholeFile(path, bytes);
      return path;
    });
  }

  clear(): Promise<void> {
    return this.#next(() => this.#remove());
  }

  #remove(): Promise<void> {
    return rm(this.#folder, { recursive: true, force: true });
  }

  #next<Result>(work: () => Promise<Result>): Promise<Result> {
    const result = this.#done.then(work);
    this.#done = result.catch(() => undefined);
    return result;
  }
}
