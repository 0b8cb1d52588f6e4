/** The languages that Baybook speaks, by what BCP 47 calls them. English is the one that its sentences are written in. */
export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];

/** `system`: the one of the system where Baybook speaks it, else English. */
export const LANGUAGE_CHOICES = ['system', ...LANGUAGES] as const;
export type LanguageChoice = (typeof LANGUAGE_CHOICES)[number];

/** Each in its own words, so that it is found by whoever reads no other. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' };

/** Every sentence of the program in brackets: shows which words no translation would reach. For tests. */
export const BRACKETED = 'brackets';

/** The language that was chosen; where none was, the first of the system's (BCP 47) that Baybook speaks. */
export function languageOf(chosen: unknown, ofSystem: readonly string[]): Language {
  const spoken = (tag: unknown): Language | undefined => LANGUAGES.find((each) => each === tag);
  const first = ofSystem.map((tag) => spoken(tag.toLowerCase().split(/[-_]/)[0])).find((each) => each !== undefined);
  return spoken(chosen) ?? first ?? 'en';
}
