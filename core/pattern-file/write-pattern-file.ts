import { resolve } from 'node:path';
import { writeWholeFile } from '../files/write-whole-file.ts';
import type { Pattern } from '../model/pattern.ts';
import { parsePatternFile, patternFileOf } from '../parse/pattern.ts';

/**
 * Writes a pattern file, whole or not at all. Numbers are written in the shortest form that reads back to the same value.
 *
 * @throws AppError `file-exists` unless `overwrite`, `disk-full`, `not-writable`, `pattern-file-invalid` when `pattern`
 *   would not be read back.
 */
export async function writePatternFile(
  path: string,
  pattern: Pattern,
  options: { overwrite?: boolean | undefined } = {},
): Promise<void> {
  const file = patternFileOf(pattern);
  parsePatternFile(file);
  await writeWholeFile(resolve(path), `${JSON.stringify(file, null, 2)}\n`, options);
}
