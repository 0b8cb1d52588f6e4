import { randomUUID } from 'node:crypto';
import * as v from 'valibot';
import type { Lesson, Student, StudentOverview, Swing } from '../model/book.ts';
import type { View } from '../model/words.ts';
import { argument } from '../parse/argument.ts';
import { handedness as hand, identifier, typedName, typedNameOrEmpty, view } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import { grouped } from './grouped.ts';
import type { MediaFolder } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { lessonRow, LESSON_COLUMNS, STUDENT_COLUMNS, studentRow, SWING_COLUMNS, swingRow } from './rows.ts';

const studentFields = v.object({ firstName: typedName, lastName: typedNameOrEmpty, handedness: hand });
export type StudentFields = v.InferOutput<typeof studentFields>;

export interface StudentOperations {
  /** Every student by last then first name; lessons newest day first; swings in the order they were added. */
  listStudents(): readonly StudentOverview[];
  /** Names are trimmed. @throws AppError `bad-request`. */
  addStudent(fields: StudentFields): Student;
  /** @throws AppError `bad-request`, `no-such-record`. */
  changeStudent(id: string, fields: StudentFields): Student;
  /** Removes all below as well, and the media files no other clip uses. @throws AppError `no-such-record`. */
  removeStudent(id: string): void;
}

const overviewClipRow = v.strictObject({ id: identifier, swing_id: identifier, view });

export function studentOperations(database: BookDatabase, media: MediaFolder): StudentOperations {
  return {
    listStudents: () =>
      database.read(() => {
        const order = 'last_name COLLATE NOCASE, first_name COLLATE NOCASE, number';
        return overviewOf(
          database.all(studentRow, `SELECT ${STUDENT_COLUMNS} FROM student ORDER BY ${order}`),
          database.all(lessonRow, `SELECT ${LESSON_COLUMNS} FROM lesson ORDER BY date DESC, number DESC`),
          database.all(swingRow, `SELECT ${SWING_COLUMNS} FROM swing ORDER BY number`),
          database.all(overviewClipRow, 'SELECT id, swing_id, view FROM clip ORDER BY view, number'),
        );
      }),

    addStudent(fields) {
      const student = { id: randomUUID(), ...argument(studentFields, fields, 'the student') };
      const { id, firstName, lastName, handedness } = student;
      database.insert('student', { id, first_name: firstName, last_name: lastName, handedness });
      return student;
    },

    changeStudent(id, fields) {
      const student = { id, ...argument(studentFields, fields, 'the student') };
      const { firstName, lastName, handedness } = student;
      const sql = 'UPDATE student SET first_name = ?, last_name = ?, handedness = ? WHERE id = ?';
      if (database.run(sql, firstName, lastName, handedness, id) === 0) throw noSuch('student', id);
      return student;
    },

    removeStudent(id) {
      media.removing(() => {
        if (database.run('DELETE FROM student WHERE id = ?', id) === 0) throw noSuch('student', id);
      });
    },
  };
}

function overviewOf(
  students: readonly Student[],
  lessons: readonly Lesson[],
  swings: readonly Swing[],
  clips: readonly { readonly id: string; readonly swing_id: string; readonly view: View }[],
): StudentOverview[] {
  const lessonsOf = grouped(lessons, (lesson) => lesson.studentId);
  const swingsOf = grouped(swings, (swing) => swing.lessonId);
  const clipsOf = grouped(clips, (clip) => clip.swing_id);
  return students.map((student) => ({
    student,
    lessons: (lessonsOf.get(student.id) ?? []).map((lesson) => ({
      lesson,
      swings: (swingsOf.get(lesson.id) ?? []).map((swing) => ({
        swing,
        clips: (clipsOf.get(swing.id) ?? []).map((clip) => ({ id: clip.id, view: clip.view })),
      })),
    })),
  }));
}
