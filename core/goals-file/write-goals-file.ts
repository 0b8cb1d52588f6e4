import { resolve } from 'node:path';
import { writeWholeFile } from '../files/write-whole-file.ts';
import type { Goals } from '../model/goals.ts';
import { parseGoalsFile, goalsFileOf } from '../parse/goals.ts';

/**
 * Writes a goals file, whole or not at all. Numbers are written in the shortest form that reads back to the same value.
 *
 * @throws AppError `file-exists` unless `overwrite`, `disk-full`, `not-writable`, `goals-file-invalid` when `goals`
 *   would not be read back.
 */
export async function writeGoalsFile(
  path: string,
  goals: Goals,
  options: { overwrite?: boolean | undefined } = {},
): Promise<void> {
  const file = goalsFileOf(goals);
  parseGoalsFile(file);
  await writeWholeFile(resolve(path), `${JSON.stringify(file, null, 2)}\n`, options);
}
