import { mkdir, readFile, rename } from 'node:fs/promises';
import { dirname } from 'node:path';
import * as v from 'valibot';
import { writingTrouble } from '../core/files/file-trouble.ts';
import { writeWholeFile } from '../core/files/write-whole-file.ts';
import { USUAL_SETTINGS } from '../core/model/settings.ts';
import type { ReadSettings, Settings } from '../core/model/settings.ts';
import { settingsFile } from '../core/parse/settings.ts';

/**
 * Reads the settings file. One that is missing means the usual settings; one that cannot be understood is set aside under
 * another name, so that nothing of it is lost, and the usual settings are used.
 */
export async function readSettings(path: string): Promise<ReadSettings> {
  const text = await readFile(path, 'utf8').catch(() => null);
  if (text === null) return { settings: USUAL_SETTINGS, trouble: null };
  const parsed = v.safeParse(v.pipe(v.string(), v.parseJson(), settingsFile), text);
  if (parsed.success) return { settings: parsed.output, trouble: null };
  const aside = `${path}.unreadable`;
  await rename(path, aside).catch(() => undefined);
  return {
    settings: USUAL_SETTINGS,
    trouble: `Your settings could not be read, so the usual ones are used. What was there is kept in ${aside}.`,
  };
}

/** Writes all of the settings, or leaves the file as it was. @throws AppError `not-writable`, `disk-full`. */
export async function writeSettings(path: string, settings: Settings): Promise<void> {
  await mkdir(dirname(path), { recursive: true }).catch((error: unknown) => {
    throw writingTrouble(error, path);
  });
  await writeWholeFile(path, `${JSON.stringify(settings, null, 2)}\n`, { overwrite: true });
}
