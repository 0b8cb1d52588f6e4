import { renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { freeName } from './missing-book.ts';

/** `folder gone` also where another folder stands in its place: a disk that was pulled out leaves an empty one. */
export type Standing = 'as it was' | 'gone' | 'another file' | 'folder gone';

const JOURNALS = ['-wal', '-shm'] as const;

/**
 * The place of an open book's file. SQLite itself goes on writing into a file that was deleted or moved away, and all of
 * that is gone with the program.
 */
export class BookPlace {
  readonly path: string;
  readonly #folder: string;
  readonly #folderIdentity: string | null;
  #identity: string | null = null;
  #journals: ReadonlyMap<string, string | null> = new Map();
  #kept: string | null = null;

  /** The folder must be there. */
  constructor(path: string) {
    this.path = path;
    this.#folder = dirname(path);
    this.#folderIdentity = identityOf(this.#folder);
  }

  /** The file that stands there now, and its journal, are those of the open book. */
  settle(): void {
    this.#identity = identityOf(this.path);
    this.#journals = new Map(JOURNALS.map((suffix) => [suffix, identityOf(this.path + suffix)]));
  }

  look(): Standing {
    const found = identityOf(this.path);
    if (found !== null && found === this.#identity) {
      // What was kept beside it holds nothing of what is written from here on.
      this.#kept = null;
      return 'as it was';
    }
    if (identityOf(this.#folder) !== this.#folderIdentity) return 'folder gone';
    return found === null ? 'gone' : 'another file';
  }

  /**
   * Has the book written beside its place, once as long as it stays there and nothing is written after it; returns where it
   * is then. What could not be written whole is taken away again: it must never be put in the book's place.
   */
  keepBeside(writeTo: (path: string) => void): string {
    if (this.#kept !== null && identityOf(this.#kept) !== null) return this.#kept;
    const path = freeName(`${this.path}.kept`);
    try {
      writeTo(path);
    } catch (error) {
      for (const part of ['', '-journal']) rmSync(path + part, { force: true });
      throw error;
    }
    this.#kept = path;
    return path;
  }

  /** Gives a book that was written beside its place, where nothing stands, its name. No connection may be open. */
  putBack(kept: string): void {
    this.dropJournals();
    renameSync(kept, this.path);
    this.#kept = null;
  }

  /**
   * Deletes the journal of the book that is not there any more. SQLite leaves it when its file was moved, and would read it
   * into whichever file stands there next.
   */
  dropJournals(): void {
    for (const [suffix, identity] of this.#journals)
      if (identity !== null && identityOf(this.path + suffix) === identity) rmSync(this.path + suffix, { force: true });
  }
}

/** What the coach is told once a book is in its place again. */
export function putBackSentence(path: string): string {
  return say`${path} was removed while Baybook was open. Baybook has put it back, with all that was saved in it.`;
}

export function replacedBook(path: string, kept: string): AppError {
  return new AppError(
    'book-missing',
    say`${path} was replaced by another file while Baybook was open, so the last change was not saved there. The book as it was is kept as ${kept}. Close Baybook, and put the right one of the two in that place.`,
    { detail: { path, kept } },
  );
}

export function bookFolderGone(path: string): AppError {
  return new AppError(
    'book-missing',
    say`The folder of ${path} is gone, so the last change was not saved. Leave Baybook open, plug the disk in or put the folder back, and try again.`,
    { detail: { path } },
  );
}

/** Which file it is, whatever it is called; null when nothing stands there. */
function identityOf(path: string): string | null {
  const found = statSync(path, { bigint: true, throwIfNoEntry: false });
  return found === undefined ? null : `${found.dev}:${found.ino}`;
}
