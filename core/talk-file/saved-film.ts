import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import * as v from 'valibot';
import { writeWholeFile } from '../files/write-whole-file.ts';

/** A video that was saved of a talk-through, wherever the coach keeps it. */
export interface SavedFilm {
  readonly path: string;
  readonly bytes: number;
}

const NOTE = 'saved.json';
const note = v.pipe(v.string(), v.parseJson(), v.strictObject({ path: v.string() }));

/** Notes in a talk-through's folder where its video was saved. @throws AppError `disk-full`, `not-writable`. */
export async function noteSaved(folder: string, path: string): Promise<void> {
  await writeWholeFile(join(folder, NOTE), JSON.stringify({ path }), { overwrite: true });
}

/** The video that was saved last; null where there is none, or not any more. */
export async function readSaved(folder: string): Promise<SavedFilm | null> {
  const noted = v.safeParse(note, await readFile(join(folder, NOTE), 'utf8').catch(() => ''));
  if (!noted.success) return null;
  const { path } = noted.output;
  return stat(path).then(
    ({ size }) => ({ path, bytes: size }),
    () => null,
  );
}
