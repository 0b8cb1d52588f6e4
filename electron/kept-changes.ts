import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import * as v from 'valibot';
import { readingTrouble } from '../core/files/file-trouble.ts';
import { requireFile } from '../core/files/find-file.ts';
import { unlessSilent } from '../core/files/unless-silent.ts';
import { writeWholeFile } from '../core/files/write-whole-file.ts';
import { AppError } from '../core/model/errors.ts';
import { editWrite } from '../core/parse/edit.ts';
import { pattern } from '../core/parse/pattern.ts';
import { settings } from '../core/parse/settings.ts';
import type { Unwritten } from './ipc/unwritten.ts';

/**
 * Changes that could not be written to the book, as a file in another folder. The program notes where it is and takes it in
 * when it starts again; a file that was carried elsewhere can be chosen by hand.
 */

const keptChanges = v.strictObject({
  format: v.literal('baybook-kept-changes'),
  version: v.literal(1),
  /** The folder of the book they belong to. */
  book: v.string(),
  edits: v.array(editWrite),
  pattern: v.nullable(pattern),
  settings: v.nullable(settings),
});
const note = v.strictObject({ path: v.string(), book: v.string() });

/** The file of changes that waits to be taken in, and the folder of the book they belong to. */
export type Note = v.InferOutput<typeof note>;

/** How long the file may take to be read, ms: the window opens after it, also where its disk does not answer. */
const READING_LIMIT_MS = 6000;

/** Writes the file under a name that is free. Answers with its path. @throws AppError `disk-full`, `not-writable`. */
export async function keepChanges(folder: string, book: string, unwritten: Unwritten, at: Date): Promise<string> {
  const content = JSON.stringify({ format: 'baybook-kept-changes', version: 1, book, ...unwritten });
  const day = at.toISOString().slice(0, 10);
  for (let count = 1; ; count += 1) {
    const path = join(folder, `Baybook changes ${day}${count === 1 ? '' : ` ${String(count)}`}.json`);
    try {
      await writeWholeFile(path, `${content}\n`);
      return path;
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'file-exists') throw error;
    }
  }
}

/** @throws AppError `file-not-found`, `file-unreadable`, `bad-request` when it is no such file. */
export async function readKeptChanges(path: string): Promise<Unwritten> {
  await requireFile(path);
  const reading = readFile(path, 'utf8').catch((error: unknown) => {
    throw readingTrouble(error, path);
  });
  const text = await unlessSilent(reading, path, READING_LIMIT_MS);
  const parsed = v.safeParse(v.pipe(v.string(), v.parseJson(), keptChanges), text);
  if (parsed.success) return parsed.output;
  throw new AppError('bad-request', `${path} holds no changes that Baybook kept. Choose another file.`);
}

/** Notes where the changes of a book are. @throws AppError `disk-full`, `not-writable`. */
export async function noteKept(notePath: string, path: string, book: string): Promise<void> {
  await writeWholeFile(notePath, `${JSON.stringify({ path, book })}\n`, { overwrite: true });
}

/** Where changes of which book are kept, or null. A note that cannot be read counts as none. */
export async function readNote(notePath: string): Promise<Note | null> {
  const text = await readFile(notePath, 'utf8').catch(() => null);
  const parsed = v.safeParse(v.pipe(v.string(), v.parseJson(), note), text);
  return parsed.success ? parsed.output : null;
}

/** Where changes of this book are kept, or null. */
export async function notedFor(notePath: string, book: string): Promise<string | null> {
  const noted = await readNote(notePath);
  return noted?.book === book ? noted.path : null;
}

/** Notes what was noted before; nothing where nothing was, or where the disk is full. */
export async function noteAgain(notePath: string, before: Note | null): Promise<void> {
  await forgetNote(notePath);
  if (before !== null) await noteKept(notePath, before.path, before.book).catch(() => undefined);
}

export async function forgetNote(notePath: string): Promise<void> {
  await rm(notePath, { force: true });
}
