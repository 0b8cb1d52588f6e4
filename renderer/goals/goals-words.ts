import { lowered, say } from '../../core/model/say.ts';
import { CATALOGUE } from '../../core/measure/catalogue/catalogue.ts';
import { isWithdrawn } from '../../core/measure/catalogue/where-read.ts';
import { typedIn, unitInWords } from '../../core/measure/words/format.ts';
import { readTyped } from '../../core/measure/words/typed-length.ts';
import { unitsFor } from '../../core/measure/catalogue/reading-units.ts';
import type { WantedRange } from '../../core/model/goals.ts';
import { READING_IDS } from '../../core/model/reading.ts';
import type { ReadingAspect, ReadingId, Unit } from '../../core/model/reading.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import type { Said } from '../controls/checked-entry.tsx';

/** What the goals' page shows and reads: limits and clubs as texts, choices as lists. Pure. */

export const MOST_REMARK = 600;
export const MOST_LINKS = 20;
const MOST_NAME = 80;

const option = (value: ReadingId) => ({ value, label: CATALOGUE[value].label });

/** All that are still made somewhere. */
export const READING_OPTIONS = READING_IDS.filter((id) => !isWithdrawn(id)).map(option);

/** The same with the one that is there now, whatever it is. */
export function readingOptions(now: ReadingId): readonly ReturnType<typeof option>[] {
  return isWithdrawn(now) ? [...READING_OPTIONS, option(now)] : READING_OPTIONS;
}

/** A list to choose from, with what is there now, whatever it is. */
export const withNow = <T>(list: readonly T[], now: T): readonly T[] => (list.includes(now) ? list : [...list, now]);

export const ASPECT_LABELS: Readonly<Record<ReadingAspect, string>> = {
  value: say`As it stands`,
  change: say`Change from address`,
};

/** The usual units of a reading, and the one that is there now, whatever it is. */
export function unitOptions(reading: WantedRange['reading'], now: Unit): { value: Unit; label: string }[] {
  const units = unitsFor(reading);
  return [...units, ...(units.includes(now) ? [] : [now])].map((value) => ({ value, label: unitInWords(value) }));
}

/** Where a range holds, e.g. "At top, down the line, with 7 iron"; for all it says so. */
export function whereInWords({ checkpoints, views, clubs }: WantedRange): string {
  const at = checkpoints.map((checkpoint) => lowered(CHECKPOINT_LABELS[checkpoint]));
  const parts = [
    at.length === 0 ? say`at every checkpoint` : say`at ${at.join(', ')}`,
    ...views.map((view) => lowered(VIEW_LABELS[view])),
    clubs.length === 0 ? say`every club` : say`with ${clubs.join(', ')}`,
  ];
  const words = parts.join('; ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}

/** A number in `unit` as a person types it, with or without a unit of its own: "25", "−2,5", "2 in". */
function readNumber(text: string, unit: Unit): Said<number> {
  const value = readTyped(text, unit);
  return value === null ? { trouble: say`Write a number, like 25 or −2.5.` } : { value };
}

/** One limit of a range beside the other; empty is none. */
export function readLimit(text: string, side: 'from' | 'to', other: number | null, unit: Unit): Said<number | null> {
  if (text.trim() === '') return { value: null };
  const said = readNumber(text, unit);
  if ('trouble' in said) return { trouble: say`Write a number, like 25 or −2.5, or nothing for no limit.` };
  if (other !== null && side === 'from' && said.value > other)
    return { trouble: say`This lies above "to", ${typedIn(other, unit)}. Raise that first.` };
  if (other !== null && side === 'to' && said.value < other)
    return { trouble: say`This lies below "from", ${typedIn(other, unit)}. Lower that first.` };
  return said;
}

export const writeLimit = (value: number | null, unit: Unit): string => (value === null ? '' : typedIn(value, unit));

export function readTolerance(text: string, unit: Unit): Said<number> {
  const said = readNumber(text, unit);
  return 'value' in said && said.value <= 0 ? { trouble: say`A tolerance is more than 0.` } : said;
}

/** Clubs with commas between them; empty is every club. */
export function readClubs(text: string): Said<readonly string[]> {
  const clubs = text
    .split(',')
    .map((club) => club.trim())
    .filter((club) => club !== '');
  if (clubs.some((club) => [...club].length > MOST_NAME)) return { trouble: say`A club has 80 characters at most.` };
  if (!clubs.every(isPlain)) return { trouble: say`A club is one line of plain text.` };
  const plain = new Set(clubs.map((club) => club.toLowerCase()));
  return plain.size < clubs.length ? { trouble: say`Name each club once.` } : { value: clubs };
}

export const writeClubs = (clubs: readonly string[]): string => clubs.join(', ');

/** No control characters, which would break the line they stand on. */
function isPlain(text: string): boolean {
  return [...text].every((character) => {
    const code = character.codePointAt(0) ?? 0;
    return code >= 32 && code !== 127;
  });
}

export function readName(text: string): Said<string> {
  const name = text.trim();
  if (name === '') return { trouble: say`This needs a name.` };
  if (!isPlain(name)) return { trouble: say`A name is one line of plain text.` };
  return [...name].length > MOST_NAME ? { trouble: say`A name has 80 characters at most.` } : { value: name };
}
