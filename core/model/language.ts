import { BRACKETED, languageOf } from './languages.ts';
import type { Language } from './languages.ts';

/** What a process, a page or a thread can be told its language by. */
interface Teller {
  /** Programs and what they start: children and threads of Node inherit its variables. */
  readonly process?: { readonly env?: Readonly<Record<string, string | undefined>> };
  /** The page: from its preload script. */
  readonly baybookLanguage?: unknown;
  /** A thread of the page: it is named by its language. */
  readonly name?: unknown;
}

const teller = globalThis as Teller;
const told = teller.process?.env?.['BAYBOOK_LANGUAGE'] ?? teller.baybookLanguage ?? teller.name;

/** Whether sentences stand in brackets; the language is English then. */
export const IN_BRACKETS = told === BRACKETED;

/** What the threads of a page must be named. */
export const LANGUAGE_TOLD = typeof told === 'string' ? told : '';

/**
 * The language of this process, page or thread. It is settled when the first module that has words is loaded and stays until
 * the end, so that lists of words may be made when their modules are loaded.
 */
export const LANGUAGE: Language = languageOf(told, []);

/** For what the system writes by language: numbers, days, the tag of a document. */
export const LANGUAGE_TAG: string = { en: 'en-GB', de: 'de-DE' }[LANGUAGE];

/** Figures with the decimal sign of the language: "2.5", "2,5". */
export function inFigures(figures: string): string {
  return LANGUAGE === 'de' ? figures.replace('.', ',') : figures;
}
