import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { say } from '../model/say.ts';
import { readingTrouble } from '../files/file-trouble.ts';
import { requireFile } from '../files/find-file.ts';
import { unlessSilent } from '../files/unless-silent.ts';
import { AppError } from '../model/errors.ts';
import type { Goals } from '../model/goals.ts';
import { parseGoalsFile } from '../parse/goals.ts';

/** Bytes. The longest goals that may be written stay below; a video given by mistake does not. */
export const MAXIMUM_GOALS_FILE_BYTES = 4 * 1024 * 1024;

/**
 * Reads a goals file from the disk.
 *
 * @throws AppError `file-not-found`, `file-unreadable`, `file-empty`, `goals-file-invalid`, `goals-file-newer`.
 */
export async function readGoalsFile(path: string): Promise<Goals> {
  const whole = resolve(path);
  const text = await readText(whole);
  let content: unknown;
  try {
    content = JSON.parse(text);
  } catch (error) {
    throw notJson(whole, error, placeInText(text, error));
  }
  return parseGoalsFile(content);
}

async function readText(path: string): Promise<string> {
  try {
    const { bytes } = await requireFile(path);
    if (bytes === 0) throw new AppError('file-empty', say`${path} is empty.`);
    if (bytes > MAXIMUM_GOALS_FILE_BYTES)
      throw new AppError(
        'goals-file-invalid',
        say`${path} is too large to be a goals file. Choose the .json of goals.`,
      );
    return new TextDecoder('utf-8', { fatal: true }).decode(await unlessSilent(readFile(path), path));
  } catch (error) {
    if (error instanceof TypeError) throw notJson(path, error, null);
    throw readingTrouble(error, path);
  }
}

/** The line on which JSON.parse stopped, counted from 1, or null where it does not say. */
function placeInText(text: string, error: unknown): number | null {
  const at = error instanceof Error ? /at position (\d+)/.exec(error.message)?.[1] : undefined;
  return at === undefined ? null : text.slice(0, Number(at)).split('\n').length;
}

function notJson(path: string, cause: unknown, line: number | null): AppError {
  const where = line === null ? '' : say` from line ${String(line)} on`;
  return new AppError('goals-file-invalid', say`${path} is not JSON${where}. Choose the .json of goals.`, {
    cause,
    detail: { path },
  });
}
