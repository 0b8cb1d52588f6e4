import { rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { Book } from '../core/book/book.ts';
import { AppError } from '../core/model/errors.ts';
import type { Settings } from '../core/model/settings.ts';
import type { KeptFacts } from './ipc/contract.ts';
import { forgetNote, keepChanges, noteAgain, noteKept, notedFor, readKeptChanges, readNote } from './kept-changes.ts';
import type { Note } from './kept-changes.ts';
import type { Unwritten } from './ipc/unwritten.ts';
import { changesInWords, countOf, troubleInWords } from './unwritten-words.ts';

export interface KeptInBookOptions {
  readonly book: Book;
  readonly writeSettings: (settings: Settings) => Promise<void>;
  /** Where it is noted which file waits to be taken in. */
  readonly notePath: string;
}

interface Rescued {
  readonly path: string;
  /** What was noted before, and is again once it is known what becomes of the changes. */
  readonly before: Note | null;
}

/** Brings changes that were kept in another folder back into the book. */
export class KeptInBook {
  readonly #options: KeptInBookOptions;
  /** What became of the noted file, for the page to tell. */
  #told: KeptFacts | null = null;
  #rescued: Rescued | null = null;

  constructor(options: KeptInBookOptions) {
    this.#options = options;
  }

  /** Writes a file with the changes into the folder; answers with what to tell. @throws AppError when it cannot be written. */
  async keep(folder: string, unwritten: Unwritten): Promise<string> {
    const { book, notePath } = this.#options;
    const path = await keepChanges(folder, book.folder, unwritten, new Date());
    const changes = changesInWords(countOf(unwritten));
    try {
      await noteKept(notePath, path, book.folder);
      return `Kept ${changes} in ${path}. When Baybook next starts and can write the book, it takes them in by itself. Leave the file there until then.`;
    } catch {
      // The settings lie on the full disk too.
      return `Kept ${changes} in ${path}. Once there is room, start Baybook and choose “Bring in kept changes” under “Keys and text”.`;
    }
  }

  /**
   * The same beside the settings, without a word, while it is not known what becomes of the changes: the system may end the
   * program before anybody answers. Nothing happens where that disk is full too.
   */
  async rescue(unwritten: Unwritten): Promise<void> {
    const { book, notePath } = this.#options;
    try {
      const before = await readNote(notePath);
      const path = await keepChanges(dirname(notePath), book.folder, unwritten, new Date());
      this.#rescued = { path, before };
      await noteKept(notePath, path, book.folder);
    } catch {
      await this.endRescue();
    }
  }

  /** It is known now. */
  async endRescue(): Promise<void> {
    const rescued = this.#rescued;
    this.#rescued = null;
    if (rescued === null) return;
    const { notePath } = this.#options;
    await rm(rescued.path, { force: true }).catch(() => undefined);
    if ((await readNote(notePath))?.path === rescued.path) await noteAgain(notePath, rescued.before);
  }

  /** Takes in the file that was noted, if there is one. Never rejects: `told` says what became of it. */
  async takeInNoted(): Promise<KeptFacts | null> {
    const path = await notedFor(this.#options.notePath, this.#options.book.folder);
    this.#told = path === null ? null : await this.takeIn(path).catch((error: unknown) => notTaken(path, error));
    return this.#told;
  }

  /** Puts the changes of a file into the book, and then takes the file away. @throws AppError when that cannot be done. */
  async takeIn(path: string): Promise<KeptFacts> {
    const { book, writeSettings, notePath } = this.#options;
    const kept = await readKeptChanges(path);
    const refused = book.writeEdits(kept.edits);
    if (kept.pattern !== null) book.writePattern(kept.pattern);
    if (kept.settings !== null) await writeSettings(kept.settings);
    await forgetNote(notePath);
    const changes = changesInWords(countOf(kept) - refused);
    if (refused > 0)
      return {
        takenIn: true,
        sentence: `Brought in ${changes}. ${changesInWords(refused)} did not fit the book any more and stayed in ${path}.`,
      };
    await rm(path, { force: true }).catch(() => undefined);
    return { takenIn: true, sentence: `Brought in ${changes} that had been kept in ${path}. All is in the book now.` };
  }

  /** What became of the noted file; told once. */
  tell(): KeptFacts | null {
    const told = this.#told;
    this.#told = null;
    return told;
  }
}

function notTaken(path: string, error: unknown): KeptFacts {
  const why =
    error instanceof AppError && error.code === 'file-not-found' ? 'The file is not there.' : troubleInWords(error);
  return { takenIn: false, sentence: `The changes kept in ${path} are not in the book yet. ${why}` };
}
