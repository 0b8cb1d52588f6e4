import { resolve } from 'node:path';
import { writeWholeFile } from '../files/write-whole-file.ts';
import type { SwingFile } from '../model/swing-file.ts';
import { parseSwingFile } from './parse-swing-file.ts';

/**
 * Writes a swing file, whole or not at all. Numbers are written in the shortest form that reads back to the same value.
 *
 * @throws AppError `file-exists` unless `overwrite`, `disk-full`, `not-writable`, `swing-file-invalid` when `swing` would
 *   not be read back.
 */
export async function writeSwingFile(
  path: string,
  swing: SwingFile,
  options: { overwrite?: boolean | undefined } = {},
): Promise<void> {
  await writeWholeFile(resolve(path), `${JSON.stringify(parseSwingFile(swing), null, 2)}\n`, options);
}
