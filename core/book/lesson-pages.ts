import * as v from 'valibot';
import { say } from '../model/say.ts';
import { EMPTY_PAGE, isEmptyPage, USUAL_LIBRARY } from '../model/lesson-page.ts';
import type { CoachLibrary, EarlierPage, LessonPage } from '../model/lesson-page.ts';
import { argument } from '../parse/argument.ts';
import { coachLibrary, lessonPage } from '../parse/lesson-page.ts';
import { identifier } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import { noSuch } from './no-such.ts';

export interface LessonPageOperations {
  /**
   * Replaces the page of the lesson that a swing belongs to; an empty page leaves nothing.
   * @throws AppError `bad-request`, `no-such-record`.
   */
  setPage(swingId: string, page: LessonPage): void;
  /**
   * The page of the same student's latest lesson before the one of a swing that has one: by day, and of one day by the order
   * in which lessons were added. null: there is none. @throws AppError `no-such-record`.
   */
  earlierPage(swingId: string): EarlierPage | null;
  /** The coach's drills and letter; the usual ones where nothing is kept. */
  readLibrary(): CoachLibrary;
  /** @throws AppError `bad-request`. */
  writeLibrary(library: CoachLibrary): void;
}

const pageContent = v.pipe(v.string(), v.parseJson(), lessonPage);
const pageRow = v.strictObject({ content: pageContent });
const earlierRow = v.pipe(
  v.strictObject({
    lesson_id: identifier,
    date: v.string(),
    content: pageContent,
    swing_id: v.nullable(identifier),
  }),
  v.transform(({ lesson_id, date, content, swing_id }): EarlierPage => ({
    ...{ lessonId: lesson_id, date, page: content, swingId: swing_id },
  })),
);
const libraryRow = v.strictObject({ content: v.pipe(v.string(), v.parseJson(), coachLibrary) });
const lessonRow = v.strictObject({ lesson_id: identifier });

/** A swing of the lesson that has a clip: the page's own first. */
const SHOWN_SWING = `SELECT swing.id FROM swing WHERE swing.lesson_id = lesson.id
  AND EXISTS (SELECT 1 FROM clip WHERE clip.swing_id = swing.id)
  ORDER BY swing.id = lesson_page.swing_id DESC, swing.number LIMIT 1`;

const EARLIER = `
  SELECT lesson.id AS lesson_id, lesson.date, lesson_page.content, (${SHOWN_SWING}) AS swing_id
    FROM lesson JOIN lesson_page ON lesson_page.lesson_id = lesson.id
    JOIN lesson AS this ON this.id = ? AND this.student_id = lesson.student_id
   WHERE lesson.id <> this.id
     AND (lesson.date < this.date OR (lesson.date = this.date AND lesson.number < this.number))
   ORDER BY lesson.date DESC, lesson.number DESC LIMIT 1`;

export function lessonPageOperations(database: BookDatabase): LessonPageOperations {
  const lessonOf = (swingId: string): string => {
    const found = database.one(lessonRow, 'SELECT lesson_id FROM swing WHERE id = ?', swingId);
    if (found === null) throw noSuch('swing', swingId);
    return found.lesson_id;
  };
  return {
    setPage(swingId, page) {
      const checked = argument(lessonPage, page, say`the lesson page`);
      database.write(() => {
        const lessonId = lessonOf(swingId);
        database.run('DELETE FROM lesson_page WHERE lesson_id = ?', lessonId);
        if (isEmptyPage(checked)) return;
        database.insert('lesson_page', {
          ...{ lesson_id: lessonId, swing_id: swingId, content: JSON.stringify(checked) },
        });
      });
    },

    earlierPage: (swingId) => database.read(() => database.one(earlierRow, EARLIER, lessonOf(swingId))),

    readLibrary: () => database.one(libraryRow, 'SELECT content FROM coach_library')?.content ?? USUAL_LIBRARY,

    writeLibrary(library) {
      const content = JSON.stringify(argument(coachLibrary, library, say`the drills and the letter`));
      database.run('INSERT OR REPLACE INTO coach_library (number, content) VALUES (1, ?)', content);
    },
  };
}

/** The page of a lesson; an empty one where nothing is kept. */
export function pageOf(database: BookDatabase, lessonId: string): LessonPage {
  return database.one(pageRow, 'SELECT content FROM lesson_page WHERE lesson_id = ?', lessonId)?.content ?? EMPTY_PAGE;
}
