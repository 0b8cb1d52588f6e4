import { readFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { say } from '../model/say.ts';
import { readingTrouble } from '../files/file-trouble.ts';
import { requireFile } from '../files/find-file.ts';
import { unlessSilent } from '../files/unless-silent.ts';
import { AppError } from '../model/errors.ts';
import type { SwingFile } from '../model/swing-file.ts';
import { parseSwingFile } from './parse-swing-file.ts';

/** Bytes. A swing with every frame of a long clip marked stays far below; a video given by mistake does not. */
export const MAXIMUM_SWING_FILE_BYTES = 64 * 1024 * 1024;

export interface ReadSwing {
  readonly swing: SwingFile;
  /** Absolute; what the clips' relative paths start from. */
  readonly folder: string;
}

/**
 * Reads a swing file from the disk.
 *
 * @throws AppError `file-not-found`, `file-unreadable`, `file-empty`, `swing-file-invalid`, `swing-file-newer`.
 */
export async function readSwingFile(path: string): Promise<ReadSwing> {
  const whole = resolve(path);
  return { swing: parseSwingFile(parseJson(await readText(whole), whole)), folder: dirname(whole) };
}

async function readText(path: string): Promise<string> {
  try {
    const { bytes } = await requireFile(path);
    if (bytes === 0) throw new AppError('file-empty', say`${path} is empty.`);
    if (bytes > MAXIMUM_SWING_FILE_BYTES)
      throw new AppError(
        'swing-file-invalid',
        say`${path} is too large to be a swing file. Choose the .json of a swing.`,
      );
    return new TextDecoder('utf-8', { fatal: true }).decode(await unlessSilent(readFile(path), path));
  } catch (error) {
    if (error instanceof TypeError) throw notJson(path, error);
    throw readingTrouble(error, path);
  }
}

function parseJson(text: string, path: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw notJson(path, error);
  }
}

function notJson(path: string, cause: unknown): AppError {
  return new AppError(
    'swing-file-invalid',
    say`${path} is not JSON, so it is no swing file. Choose the .json of a swing.`,
    {
      cause,
      detail: { path },
    },
  );
}
