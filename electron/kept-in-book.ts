import { existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { say } from '../core/model/say.ts';
import type { Book } from '../core/book/book.ts';
import { AppError } from '../core/model/errors.ts';
import type { Settings } from '../core/model/settings.ts';
import type { KeptFacts } from './ipc/contract.ts';
import { addNote, forgetNotes, keepChanges, keepRest, readKeptChanges, readNotes } from './kept-changes.ts';
import type { KeptChanges } from './kept-changes.ts';
import type { Unwritten } from './ipc/unwritten.ts';
import { changesInWords, countOf, troubleInWords } from './unwritten-words.ts';

export interface KeptInBookOptions {
  readonly book: Book;
  readonly writeSettings: (settings: Settings) => Promise<void>;
  /** Where it is noted which files wait to be taken in, by which book. */
  readonly notePath: string;
}

/** Brings changes that were kept in another folder back into the book. */
export class KeptInBook {
  readonly #options: KeptInBookOptions;
  /** What became of the noted files, for the page to tell. */
  #told: KeptFacts | null = null;
  /** The file of changes of which nobody knows yet what becomes of them. */
  #rescued: string | null = null;

  constructor(options: KeptInBookOptions) {
    this.#options = options;
  }

  /** Writes a file with the changes into the folder; answers with what to tell. @throws AppError when it cannot be written. */
  async keep(folder: string, unwritten: Unwritten): Promise<string> {
    const { book, notePath } = this.#options;
    const path = await keepChanges(folder, { ...unwritten, book: book.folder }, new Date());
    const changes = changesInWords(countOf(unwritten));
    try {
      await addNote(notePath, { path, book: book.folder });
      return say`Kept ${changes} in ${path}. When Baybook next starts and can write the book, it takes them in by itself. Leave the file there until then.`;
    } catch {
      // The settings lie on the full disk too.
      return say`Kept ${changes} in ${path}. Once there is room, start Baybook and choose “Bring in kept changes” under “Settings”.`;
    }
  }

  /**
   * The same beside the settings, without a word, while it is not known what becomes of the changes: the system may end the
   * program before anybody answers. Nothing happens where that disk is full too.
   */
  async rescue(unwritten: Unwritten): Promise<void> {
    const { book, notePath } = this.#options;
    try {
      this.#rescued = await keepChanges(dirname(notePath), { ...unwritten, book: book.folder }, new Date());
      await addNote(notePath, { path: this.#rescued, book: book.folder });
    } catch {
      await this.endRescue();
    }
  }

  /** It is known now. */
  async endRescue(): Promise<void> {
    const path = this.#rescued;
    this.#rescued = null;
    if (path === null) return;
    await rm(path, { force: true }).catch(() => undefined);
    await this.#forget(path);
  }

  /** Takes in the files that were noted for this book, if there are any. Never rejects: `told` says what became of them. */
  async takeInNoted(): Promise<KeptFacts | null> {
    const { notePath, book } = this.#options;
    const noted = (await readNotes(notePath)).filter((each) => each.book === book.folder);
    const all: KeptFacts[] = [];
    for (const { path } of noted) all.push(await this.takeIn(path).catch((error: unknown) => notTaken(path, error)));
    const sentence = all.map((each) => each.sentence).join(' ');
    this.#told = all.length === 0 ? null : { takenIn: all.every(({ takenIn }) => takenIn), sentence };
    return this.#told;
  }

  /**
   * Puts the changes of a file into the book. What the book has then leaves the file, so that it never comes in twice; without
   * any left the file goes. @throws AppError when that cannot be done.
   */
  async takeIn(path: string): Promise<KeptFacts> {
    const kept = await readKeptChanges(path);
    const refused = await this.#bringIn(path, kept);
    const changes = changesInWords(countOf(kept) - refused.length);
    const left = await keepRest(path, { ...kept, edits: refused, goals: null, settings: null }).then(
      () => '',
      () => say` The file ${path} could not be changed: do not bring it in again.`,
    );
    await this.#forget(path);
    const sentence =
      refused.length > 0
        ? say`Brought in ${changes}. ${changesInWords(refused.length)} did not fit the book any more and stayed in ${path}.`
        : say`Brought in ${changes} that had been kept in ${path}. All is in the book now.`;
    return { takenIn: true, sentence: sentence + left };
  }

  /** Answers with the edits that the book refused. @throws AppError; by then what it had taken has left the file. */
  async #bringIn(path: string, kept: KeptChanges): Promise<KeptChanges['edits']> {
    const { book, writeSettings } = this.#options;
    let rest = kept;
    try {
      rest = { ...rest, edits: book.writeEdits(kept.edits) };
      if (kept.goals !== null) book.writeGoals(kept.goals);
      rest = { ...rest, goals: null };
      if (kept.settings !== null) await writeSettings(kept.settings);
      return rest.edits;
    } catch (error) {
      if (rest !== kept) await keepRest(path, rest).catch(() => undefined);
      throw error;
    }
  }

  /** The file, or one of its name that is not where it was noted any more, waits no longer. */
  async #forget(path: string): Promise<void> {
    const { notePath, book } = this.#options;
    const isIt = (noted: string): boolean => basename(noted) === basename(path) && !existsSync(noted);
    await forgetNotes(notePath, (note) => note.book === book.folder && (note.path === path || isIt(note.path))).catch(
      () => undefined,
    );
  }

  /** What became of the noted files; told once. */
  tell(): KeptFacts | null {
    const told = this.#told;
    this.#told = null;
    return told;
  }
}

function notTaken(path: string, error: unknown): KeptFacts {
  const why =
    error instanceof AppError && error.code === 'file-not-found' ? say`The file is not there.` : troubleInWords(error);
  return { takenIn: false, sentence: say`The changes kept in ${path} are not in the book yet. ${why}` };
}
