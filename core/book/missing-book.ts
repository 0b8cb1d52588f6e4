import { lstatSync, readdirSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';

/** What is left in a folder of a book whose file is gone or empty. */
interface Remains {
  readonly clips: number;
  /** The journal, with changes that the file itself did not hold yet. */
  readonly journal: boolean;
}

/**
 * Refuses to begin a new book where one was: the book's file is missing or empty, but the folder has the book's media
 * folder, or a journal. (A kill while the very first book was begun leaves neither.) Nothing is changed.
 *
 * @throws AppError `book-missing`.
 */
export function refuseToReplaceMissing(folder: string, path: string): void {
  if ((statSync(path, { throwIfNoEntry: false })?.size ?? 0) > 0) return;
  const remains = remainsOfBook(folder, path);
  if (remains === null) return;
  const state = statSync(path, { throwIfNoEntry: false }) === undefined ? 'missing' : 'empty';
  const clips = remains.clips === 1 ? say`1 clip` : say`${remains.clips} clips`;
  throw new AppError(
    'book-missing',
    remains.journal
      ? say`There was a book in ${folder}, and its file book.sqlite is ${state}. What is left of it (changes in a journal, ${clips}) was not touched. Put a backup of that file in its place, choose another folder, or begin a new book there.`
      : say`There was a book in ${folder}, and its file book.sqlite is ${state}. What is left of it (${clips}) was not touched. Put a backup of that file in its place, choose another folder, or begin a new book there.`,
    { detail: { path, state, clips: remains.clips } },
  );
}

/** For whoever begins a new book on purpose: the old journal belongs to no book any more, and is kept under another name. */
export function setJournalAside(path: string): void {
  for (const suffix of ['-wal', '-shm']) {
    const journal = `${path}${suffix}`;
    if (statSync(journal, { throwIfNoEntry: false }) === undefined) continue;
    renameSync(journal, freeName(`${journal}.old`));
  }
}

/** `wanted`, or with -2, -3 ... behind it when that is taken. */
export function freeName(wanted: string): string {
  let name = wanted;
  for (let count = 2; lstatSync(name, { throwIfNoEntry: false }) !== undefined; count += 1) name = `${wanted}-${count}`;
  return name;
}

function remainsOfBook(folder: string, path: string): Remains | null {
  const media = join(folder, 'media');
  const hasMedia = statSync(media, { throwIfNoEntry: false })?.isDirectory() === true;
  const journal = (statSync(`${path}-wal`, { throwIfNoEntry: false })?.size ?? 0) > 0;
  return hasMedia || journal ? { clips: hasMedia ? readdirSync(media).length : 0, journal } : null;
}
