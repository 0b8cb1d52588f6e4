import { readFileSync } from 'node:fs';
import { BRACKETED, languageOf } from '../core/model/languages.ts';

/**
 * The language to speak from this start on: what `BAYBOOK_LANGUAGE` says, else the coach's choice in the settings file, else the
 * system's. The file is read whole, and its troubles are told, when the program is under way; here it only counts.
 */
export function chooseLanguage(
  env: Readonly<Record<string, string | undefined>>,
  settingsPath: string,
  ofSystem: () => readonly string[],
): string {
  const told = env['BAYBOOK_LANGUAGE'] ?? '';
  if (told === BRACKETED) return told;
  if (told !== '') return languageOf(told, []);
  return languageOf(chosenIn(settingsPath), ofSystem());
}

function chosenIn(path: string): unknown {
  try {
    const file: unknown = JSON.parse(readFileSync(path, 'utf8').replace(/^\uFEFF/, ''));
    return typeof file === 'object' && file !== null && 'language' in file ? file.language : undefined;
  } catch {
    return undefined;
  }
}
