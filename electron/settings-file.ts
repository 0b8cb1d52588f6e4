import { mkdir, readFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { say } from '../core/model/say.ts';
import { writingTrouble } from '../core/files/file-trouble.ts';
import { findFile } from '../core/files/find-file.ts';
import { setAside } from '../core/files/set-aside.ts';
import { writeWholeFile } from '../core/files/write-whole-file.ts';
import { AppError } from '../core/model/errors.ts';
import { USUAL_SETTINGS } from '../core/model/settings.ts';
import type { ReadSettings, Settings } from '../core/model/settings.ts';
import { settingsOfFile } from '../core/parse/settings.ts';

/** Bytes. Every key of every command changed stays far below. */
const LARGEST = 1024 * 1024;

/**
 * Reads the settings file. One that is missing means the usual settings. Of one that can be understood in part, the rest
 * is as usual; it is set aside under another name, as is one that cannot be understood at all, so that nothing of it is
 * lost.
 */
export async function readSettings(path: string): Promise<ReadSettings> {
  let text: string | null;
  try {
    const found = await findFile(path);
    if (found === null) return { settings: USUAL_SETTINGS, trouble: null };
    text = found.bytes > LARGEST ? null : await readFile(path, 'utf8');
  } catch (error) {
    const said = error instanceof AppError ? error.message : say`Check the folder that they are in.`;
    return { settings: USUAL_SETTINGS, trouble: say`The usual settings are used, yours could not be read. ${said}` };
  }
  const read = text === null ? null : settingsOfFile(parsedJson(text));
  if (read !== null && read.dropped.length === 0) return { settings: read.settings, trouble: null };

  const aside = await setAside(path);
  const kept =
    aside === null ? say`The file ${path} could not be set aside.` : say`The file as it was is kept as ${aside}.`;
  if (read === null)
    return {
      settings: USUAL_SETTINGS,
      trouble: say`Your settings could not be read, so the usual ones are used. ${kept}`,
    };
  // Else the same would be said, and set aside, at every start.
  if (aside !== null) await writeSettings(path, read.settings).catch(() => undefined);
  return {
    settings: read.settings,
    trouble: say`Of your settings these could not be read and are as usual: ${read.dropped.join(', ')}. ${kept}`,
  };
}

/** Undefined where it is no JSON. Some editors put a mark before it that says how text is stored. */
function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return undefined;
  }
}

/** Writes all of the settings, or leaves the file as it was. @throws AppError `not-writable`, `disk-full`. */
export async function writeSettings(path: string, settings: Settings): Promise<void> {
  await mkdir(dirname(path), { recursive: true }).catch((error: unknown) => {
    throw writingTrouble(error, path);
  });
  await writeWholeFile(path, `${JSON.stringify(settings, null, 2)}\n`, { overwrite: true });
}
