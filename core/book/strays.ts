import { inFigures } from '../model/language.ts';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { Book } from './book.ts';
import { COPIES_IN_USE, INCOMING_SUFFIX } from './media-folder.ts';

/** What of a book's files does not fit together any more. Nothing of it is ever deleted without being asked. */
export interface Strays {
  /** Files of the media folder that no clip names. */
  readonly unnamed: readonly { readonly path: string; readonly bytes: number }[];
  /** Copies that clips name and that are not in the media folder. */
  readonly lost: readonly { readonly path: string; readonly clip: string }[];
  /** What was set aside of a book that was replaced or gone (book-place.ts, missing-book.ts). A removal does not reach it. */
  readonly aside: readonly string[];
}

const ASIDE = /^book\.sqlite(\.kept|-(wal|shm)\.old)(-\d+)?$/;

const copyRow = v.strictObject({ file: v.string(), original_name: v.string() });
const unwantedRow = v.strictObject({ file: v.string() });

/** Looks through the media folder; clips that are linked lie elsewhere and are looked at when they are opened. */
export function findStrays(book: Book): Strays {
  const copies = book.database.all(
    copyRow,
    "SELECT file, original_name FROM clip WHERE stored = 'copied' ORDER BY number",
  );
  const unwanted = book.database.all(unwantedRow, 'SELECT file FROM unwanted_media').map(({ file }) => file);
  const inUse = book.database.all(unwantedRow, COPIES_IN_USE).map(({ file }) => file);
  const known = new Set([...inUse, ...unwanted]);
  const present = readdirSync(book.media.path).filter((name) => !name.endsWith(INCOMING_SUFFIX));
  return {
    unnamed: present
      .filter((name) => !known.has(name))
      .map((name) => join(book.media.path, name))
      .flatMap((path) => {
        const facts = statSync(path, { throwIfNoEntry: false });
        return facts === undefined ? [] : [{ path, bytes: facts.size }];
      }),
    lost: copies
      .filter(({ file }) => !present.includes(file))
      .map(({ file, original_name }) => ({ path: join(book.media.path, file), clip: original_name })),
    aside: readdirSync(book.folder)
      .filter((name) => ASIDE.test(name))
      .map((name) => join(book.folder, name)),
  };
}

/** What a coach is told of it, a sentence or two for each kind; empty when all fits together. */
export function straySentences({ unnamed, lost, aside }: Strays, mediaFolder: string): string[] {
  const said: string[] = [];
  if (lost.length > 0)
    said.push(
      lost.length === 1
        ? say`1 clip of the book has its file missing in ${mediaFolder}: ${named(lost.map(({ clip }) => clip))}. Put the files back, or show Baybook the clips again.`
        : say`${lost.length} clips of the book have their files missing in ${mediaFolder}: ${named(lost.map(({ clip }) => clip))}. Put the files back, or show Baybook the clips again.`,
    );
  if (unnamed.length > 0)
    said.push(
      unnamed.length === 1
        ? say`${counted(unnamed.length, 'file')} in ${mediaFolder} (${megabytes(unnamed)} MB) belongs to no clip of the book. Baybook leaves them there; if you did not put them there yourself, a backup of the book may name them.`
        : say`${counted(unnamed.length, 'file')} in ${mediaFolder} (${megabytes(unnamed)} MB) belong to no clip of the book. Baybook leaves them there; if you did not put them there yourself, a backup of the book may name them.`,
    );
  if (aside.length > 0)
    said.push(
      aside.length === 1
        ? say`Baybook set this file of an earlier book aside: ${aside.join(', ')}. Students whom you removed may still be in it. Delete it once you need nothing of it.`
        : say`Baybook set these files of an earlier book aside: ${aside.join(', ')}. Students whom you removed may still be in them. Delete them once you need nothing of it.`,
    );
  return said;
}

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;
const megabytes = (files: Strays['unnamed']): string =>
  inFigures((files.reduce((sum, { bytes }) => sum + bytes, 0) / 1024 ** 2).toFixed(1));

const NAMED = 3;
function named(names: readonly string[]): string {
  const rest = names.length - NAMED;
  return `${names.slice(0, NAMED).join(', ')}${rest > 0 ? say` and ${rest} more` : ''}`;
}
