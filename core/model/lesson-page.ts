import { say } from './say.ts';
import type { ReadingKey } from './reading.ts';

/**
 * What a lesson sends besides its stills, in the coach's own words. Kept with the lesson in the book, and with the swing in a
 * swing file. Numbers are never kept here: each is read anew from the marks.
 */
export interface LessonPage {
  /** The most important first. */
  readonly findings: readonly Finding[];
  /** At most MOST_KEY_THOUGHTS. */
  readonly keyThoughts: readonly string[];
  readonly drills: readonly Drill[];
  /** What the student is asked to film for next time, and how; both may be empty. */
  readonly filmNext: { readonly what: string; readonly how: string };
}

/** One thing that was found. Its still is the frame that the reading is read on. */
export interface Finding {
  readonly reading: ReadingKey;
  /** The coach's; may be empty. */
  readonly words: string;
}

/** More than three is none. */
export const MOST_KEY_THOUGHTS = 3;

/** A drill of the coach's own library, and the copy of it on a page: what was sent stays as it was sent. */
export interface Drill {
  readonly id: string;
  readonly title: string;
  /** In their order. */
  readonly steps: readonly string[];
  /** How many, how often; may be empty. */
  readonly counts: string;
  /** What to mind with this drill; may be empty. The usual cautions stand beside it in any case. */
  readonly caution: string;
  readonly sketch: readonly Stroke[];
}

/** One stroke of a sketch: places in a field that is 1 wide and SKETCH_HEIGHT high, x to the right, y down. */
export type Stroke = readonly { readonly x: number; readonly y: number }[];

export const SKETCH_HEIGHT = 0.75;

export const EMPTY_PAGE: LessonPage = { findings: [], keyThoughts: [], drills: [], filmNext: { what: '', how: '' } };

/** Whether there is nothing on the page yet. */
export function isEmptyPage({ findings, keyThoughts, drills, filmNext }: LessonPage): boolean {
  const entries = findings.length + keyThoughts.length + drills.length;
  return entries === 0 && filmNext.what === '' && filmNext.how === '';
}

/** What a coach uses in every lesson. It belongs to the book. */
export interface CoachLibrary {
  readonly drills: readonly Drill[];
  readonly letter: LetterTemplate;
}

/** The coach's words round a lesson that goes out. PLACEHOLDERS in braces are filled in. */
export interface LetterTemplate {
  readonly subject: string;
  readonly opening: string;
  readonly closing: string;
}

/** first name: of the student. date: of the lesson, in words. readings: the findings with their numbers, one a line. */
export const PLACEHOLDERS = ['first name', 'date', 'club', 'readings'] as const;
export type Placeholder = (typeof PLACEHOLDERS)[number];

/** As they are written in this language; a letter of a coach who changed languages keeps those it was written with. */
export const PLACEHOLDER_NAMES: Readonly<Record<Placeholder, string>> = {
  'first name': say`first name`,
  date: say`date`,
  club: say`club`,
  readings: say`readings`,
};

export const USUAL_LIBRARY: CoachLibrary = {
  drills: [],
  letter: {
    subject: say`Your lesson of {date}`,
    opening: say`Hello {first name},\n\nhere is what we worked on with the {club} on {date}.`,
    closing: say`See you on the range.`,
  },
};

/** What the lesson before asked for, and the swing that it was read from. */
export interface EarlierPage {
  readonly lessonId: string;
  /** Day of that lesson, ISO 8601. */
  readonly date: string;
  readonly page: LessonPage;
  /** A swing of that lesson with a clip: the one that the page was last changed from where it is still there, else the first; null: none. */
  readonly swingId: string | null;
}
