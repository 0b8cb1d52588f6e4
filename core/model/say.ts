import { GERMAN } from './german.ts';
import { IN_BRACKETS, LANGUAGE, inFigures } from './language.ts';

/**
 * The words of the program in the language of this process: say`Frame ${number} of ${count}`. The English sentence is the key
 * of its translation, with numbers for what is put in ("Frame {0} of {1}"), so that a translation can put it in another order.
 * A sentence that has no translation stays English. What the coach wrote is put in and never a key.
 */
export function say(sentence: TemplateStringsArray, ...values: readonly (string | number)[]): string {
  return saidAround(sentence, values)
    .map((part) => (typeof part === 'number' ? inFigures(String(part)) : part))
    .join('');
}

/** The same in parts, for values that are no text. */
export function saidAround<Value>(
  sentence: TemplateStringsArray,
  values: readonly Value[],
): readonly (string | Value)[] {
  const parts = partsOf(sentence).flatMap((part): readonly (string | Value)[] =>
    typeof part === 'string' ? [part] : values.slice(part, part + 1),
  );
  return IN_BRACKETS ? ['⟦', ...parts, '⟧'] : parts;
}

/** Words that begin a line, as they stand within a sentence. German nouns keep their capital. */
export function lowered(words: string): string {
  return LANGUAGE === 'de' ? words : words.toLowerCase();
}

/** The same where the words hold names or signs of their own: only the first letter counts. */
export function loweredFirst(words: string): string {
  return LANGUAGE === 'de' ? words : `${words.charAt(0).toLowerCase()}${words.slice(1)}`;
}

const CATALOGUE: ReadonlyMap<string, string> = new Map(LANGUAGE === 'de' ? Object.entries(GERMAN) : []);

/** A text of a file that ships with the program, by itself its key; one of the coach's is in no catalogue and stays. */
export function saidText(text: string): string {
  return CATALOGUE.get(text) ?? text;
}

/** Each sentence of the code is one object for as long as the program runs. */
const known = new WeakMap<TemplateStringsArray, readonly (string | number)[]>();

/** Text, and the number of the value that stands there. */
function partsOf(sentence: TemplateStringsArray): readonly (string | number)[] {
  const before = known.get(sentence);
  if (before !== undefined) return before;
  const key = sentence.map((text, at) => (at === 0 ? text : `{${at - 1}}${text}`)).join('');
  const parts = (CATALOGUE.get(key) ?? key)
    .split(/(\{\d+\})/)
    .filter((part) => part !== '')
    .map((part) => (/^\{\d+\}$/.test(part) ? Number(part.slice(1, -1)) : part));
  known.set(sentence, parts);
  return parts;
}
