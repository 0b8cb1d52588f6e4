import { randomUUID } from 'node:crypto';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { Lesson } from '../model/book.ts';
import { argument } from '../parse/argument.ts';
import { day, handedness, note, typedName } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import type { MediaFolder } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { LESSON_COLUMNS, lessonRow } from './rows.ts';

const lessonFields = v.object({ date: day, club: typedName, handedness, note });
export type LessonFields = v.InferOutput<typeof lessonFields>;

export interface LessonOperations {
  /** @throws AppError `bad-request`, `no-such-record` when the student is not there. */
  addLesson(lesson: LessonFields & { readonly studentId: string }): Lesson;
  /** A lesson stays with its student. @throws AppError `bad-request`, `no-such-record`. */
  changeLesson(id: string, fields: LessonFields): Lesson;
  /** Removes all below as well, and the media files no other clip uses. @throws AppError `no-such-record`. */
  removeLesson(id: string): void;
}

export function lessonOperations(database: BookDatabase, media: MediaFolder): LessonOperations {
  return {
    addLesson({ studentId, ...fields }) {
      const lesson = { id: randomUUID(), studentId, ...argument(lessonFields, fields, say`the lesson`) };
      // Takes the student's row along: nothing is inserted when it is not there.
      const added = database.run(
        `INSERT INTO lesson (id, student_id, date, club, handedness, note)
           SELECT ?, id, ?, ?, ?, ? FROM student WHERE id = ?`,
        ...[lesson.id, lesson.date, lesson.club, lesson.handedness, lesson.note, studentId],
      );
      if (added === 0) throw noSuch('student', studentId);
      return lesson;
    },

    changeLesson(id, fields) {
      const { date, club, handedness: side, note: text } = argument(lessonFields, fields, say`the lesson`);
      return database.write(() => {
        const sql = 'UPDATE lesson SET date = ?, club = ?, handedness = ?, note = ? WHERE id = ?';
        database.run(sql, date, club, side, text, id);
        const lesson = database.one(lessonRow, `SELECT ${LESSON_COLUMNS} FROM lesson WHERE id = ?`, id);
        if (lesson === null) throw noSuch('lesson', id);
        return lesson;
      });
    },

    removeLesson(id) {
      media.removing(() => {
        if (database.run('DELETE FROM lesson WHERE id = ?', id) === 0) throw noSuch('lesson', id);
      });
    },
  };
}
