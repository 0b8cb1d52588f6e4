import { dayInWords } from '../model/day-in-words.ts';
import { isolated } from '../model/isolated.ts';

/** What a coach says beside the stills. */
export interface LessonWords {
  readonly student: { readonly firstName: string };
  readonly lessons: { readonly now: { readonly date: string; readonly club: string } };
  readonly keyThoughts: readonly string[];
  readonly drill: { readonly name: string; readonly text: string };
  readonly caution: string;
}

/** The words that go with the stills, as plain text: key thoughts, drill, caution, and which pictures belong to it. */
export function lessonMessage(words: LessonWords, fileNames: readonly string[]): string {
  const { date, club } = words.lessons.now;
  return [
    `${isolated(words.student.firstName)}, your lesson of ${dayInWords(date)} (${isolated(club)})`,
    '',
    'Key thoughts',
    ...words.keyThoughts.map((thought, index) => `${index + 1}. ${thought}`),
    '',
    `Drill: ${words.drill.name}`,
    words.drill.text,
    '',
    words.caution,
    '',
    'Pictures',
    ...fileNames.map((name) => `- ${name}`),
    '',
  ].join('\n');
}
