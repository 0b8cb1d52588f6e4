import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import * as v from 'valibot';
import { say } from '../core/model/say.ts';
import { readingTrouble } from '../core/files/file-trouble.ts';
import { requireFile } from '../core/files/find-file.ts';
import { unlessSilent } from '../core/files/unless-silent.ts';
import { writeWholeFile } from '../core/files/write-whole-file.ts';
import { AppError } from '../core/model/errors.ts';
import { editWrite } from '../core/parse/edit.ts';
import { goals } from '../core/parse/goals.ts';
import { settings } from '../core/parse/settings.ts';
import type { Unwritten } from './ipc/unwritten.ts';

/**
 * Changes that could not be written to a book, as a file in another folder. The program notes where it is and takes it in
 * when it starts with that book again; a file that was carried elsewhere can be chosen by hand.
 */

const keptChanges = v.strictObject({
  format: v.literal('baybook-kept-changes'),
  version: v.literal(1),
  /** The folder of the book they belong to. */
  book: v.string(),
  edits: v.array(editWrite),
  /** The goals, by the word that these files had first. */
  pattern: v.nullable(goals),
  settings: v.nullable(settings),
});
const note = v.strictObject({ path: v.string(), book: v.string() });
/** One by itself: as it was noted when there was only one. */
const notes = v.union([
  v.array(note),
  v.pipe(
    note,
    v.transform((one) => [one]),
  ),
]);

/** A file of changes that waits to be taken in, and the folder of the book they belong to. */
export type Note = v.InferOutput<typeof note>;

/** What a file of changes holds. */
export type KeptChanges = Unwritten & Pick<Note, 'book'>;

/** How long the file may take to be read, ms: the window opens after it, also where its disk does not answer. */
const READING_LIMIT_MS = 6000;

/** Writes the file under a name that is free. Answers with its path. @throws AppError `disk-full`, `not-writable`. */
export async function keepChanges(folder: string, changes: KeptChanges, at: Date): Promise<string> {
  const day = at.toISOString().slice(0, 10);
  for (let count = 1; ; count += 1) {
    const path = join(folder, `Baybook changes ${day}${count === 1 ? '' : ` ${String(count)}`}.json`);
    try {
      await writeWholeFile(path, textOf(changes));
      return path;
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'file-exists') throw error;
    }
  }
}

/** Leaves in the file what the book has not taken; nothing left, the file goes. @throws AppError `disk-full`, `not-writable`. */
export async function keepRest(path: string, rest: KeptChanges): Promise<void> {
  const isAny = rest.edits.length > 0 || rest.goals !== null || rest.settings !== null;
  if (isAny) await writeWholeFile(path, textOf(rest), { overwrite: true });
  else await rm(path, { force: true });
}

function textOf({ book, edits, goals, settings }: KeptChanges): string {
  return `${JSON.stringify({ format: 'baybook-kept-changes', version: 1, book, edits, pattern: goals, settings })}\n`;
}

/** @throws AppError `file-not-found`, `file-unreadable`, `bad-request` when it is no such file. */
export async function readKeptChanges(path: string): Promise<KeptChanges> {
  await requireFile(path);
  const reading = readFile(path, 'utf8').catch((error: unknown) => {
    throw readingTrouble(error, path);
  });
  const text = await unlessSilent(reading, path, READING_LIMIT_MS);
  const parsed = v.safeParse(v.pipe(v.string(), v.parseJson(), keptChanges), text);
  if (parsed.success) {
    const { book, edits, pattern, settings: changed } = parsed.output;
    return { book, edits, goals: pattern, settings: changed };
  }
  throw new AppError('bad-request', say`${path} holds no changes that Baybook kept. Choose another file.`);
}

/** Files of changes that wait to be taken in, of all books. Notes that cannot be read count as none. */
export async function readNotes(notePath: string): Promise<readonly Note[]> {
  const text = await readFile(notePath, 'utf8').catch(() => null);
  const parsed = v.safeParse(v.pipe(v.string(), v.parseJson(), notes), text);
  return parsed.success ? parsed.output : [];
}

/** Notes one more. @throws AppError `disk-full`, `not-writable`. */
export async function addNote(notePath: string, added: Note): Promise<void> {
  await writeNotes(notePath, [...(await readNotes(notePath)), added]);
}

/** Forgets those that `goes` is true of. @throws AppError `disk-full`, `not-writable`. */
export async function forgetNotes(notePath: string, goes: (note: Note) => boolean): Promise<void> {
  const before = await readNotes(notePath);
  const left = before.filter((each) => !goes(each));
  if (left.length < before.length) await writeNotes(notePath, left);
}

async function writeNotes(notePath: string, all: readonly Note[]): Promise<void> {
  if (all.length === 0) await rm(notePath, { force: true });
  else await writeWholeFile(notePath, `${JSON.stringify(all)}\n`, { overwrite: true });
}
