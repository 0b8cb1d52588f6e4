import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { readingTrouble } from '../files/file-trouble.ts';
import { requireFile } from '../files/find-file.ts';
import { unlessSilent } from '../files/unless-silent.ts';
import { AppError } from '../model/errors.ts';
import type { Pattern } from '../model/pattern.ts';
import { parsePatternFile } from '../parse/pattern.ts';

/** Bytes. The longest pattern that may be written stays below; a video given by mistake does not. */
export const MAXIMUM_PATTERN_FILE_BYTES = 4 * 1024 * 1024;

/**
 * Reads a pattern file from the disk.
 *
 * @throws AppError `file-not-found`, `file-unreadable`, `file-empty`, `pattern-file-invalid`, `pattern-file-newer`.
 */
export async function readPatternFile(path: string): Promise<Pattern> {
  const whole = resolve(path);
  const text = await readText(whole);
  let content: unknown;
  try {
    content = JSON.parse(text);
  } catch (error) {
    throw notJson(whole, error, placeInText(text, error));
  }
  return parsePatternFile(content);
}

async function readText(path: string): Promise<string> {
  try {
    const { bytes } = await requireFile(path);
    if (bytes === 0) throw new AppError('file-empty', `${path} is empty.`);
    if (bytes > MAXIMUM_PATTERN_FILE_BYTES)
      throw new AppError(
        'pattern-file-invalid',
        `${path} is too large to be a pattern file. Choose the .json of a pattern.`,
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
  const where = line === null ? '' : ` from line ${String(line)} on`;
  return new AppError('pattern-file-invalid', `${path} is not JSON${where}. Choose the .json of a pattern.`, {
    cause,
    detail: { path },
  });
}
