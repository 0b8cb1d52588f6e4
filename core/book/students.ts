import { randomUUID } from 'node:crypto';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { Lesson, Student, StudentOverview, Swing } from '../model/book.ts';
import type { LessonPage } from '../model/lesson-page.ts';
import { argument } from '../parse/argument.ts';
import { checkpoint } from '../parse/frames.ts';
import { lessonPage } from '../parse/lesson-page.ts';
import { countFromZero, handedness as hand, identifier, typedName, typedNameOrEmpty, view } from '../parse/scalars.ts';
import type { BookDatabase } from './database.ts';
import { grouped } from '../model/grouped.ts';
import type { MediaFolder } from './media-folder.ts';
import { noSuch } from './no-such.ts';
import { lessonRow, LESSON_COLUMNS, STUDENT_COLUMNS, studentRow, SWING_COLUMNS, swingRow } from './rows.ts';

const studentFields = v.object({
  ...{ firstName: typedName, lastName: typedNameOrEmpty, handedness: hand },
  child: v.exactOptional(v.literal(true)),
});
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
const namedRow = v.strictObject({ clip_id: identifier, checkpoint, frame_index: countFromZero });
const pageRow = v.strictObject({ lesson_id: identifier, content: v.pipe(v.string(), v.parseJson(), lessonPage) });

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
          database.all(namedRow, 'SELECT clip_id, checkpoint, frame_index FROM checkpoint'),
          database.all(pageRow, 'SELECT lesson_id, content FROM lesson_page'),
        );
      }),

    addStudent(fields) {
      const student = { id: randomUUID(), ...argument(studentFields, fields, say`the student`) };
      const { id, firstName, lastName, handedness, child } = student;
      database.insert('student', {
        ...{ id, first_name: firstName, last_name: lastName, handedness },
        child: child === true ? 1 : 0,
      });
      return student;
    },

    changeStudent(id, fields) {
      const student = { id, ...argument(studentFields, fields, say`the student`) };
      const { firstName, lastName, handedness, child } = student;
      const sql = 'UPDATE student SET first_name = ?, last_name = ?, handedness = ?, child = ? WHERE id = ?';
      const isThere = database.run(sql, firstName, lastName, handedness, child === true ? 1 : 0, id) > 0;
      if (!isThere) throw noSuch('student', id);
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
  clips: readonly v.InferOutput<typeof overviewClipRow>[],
  named: readonly v.InferOutput<typeof namedRow>[],
  pages: readonly v.InferOutput<typeof pageRow>[],
): StudentOverview[] {
  const lessonsOf = grouped(lessons, (lesson) => lesson.studentId);
  const swingsOf = grouped(swings, (swing) => swing.lessonId);
  const clipsOf = grouped(clips, (clip) => clip.swing_id);
  const namedOf = grouped(named, (each) => each.clip_id);
  const pageOf = new Map(pages.map(({ lesson_id, content }) => [lesson_id, content]));
  return students.map((student) => ({
    student,
    lessons: (lessonsOf.get(student.id) ?? []).map((lesson) => ({
      lesson,
      ...worded(pageOf.get(lesson.id)),
      swings: (swingsOf.get(lesson.id) ?? []).map((swing) => ({
        swing,
        clips: (clipsOf.get(swing.id) ?? []).map((clip) => ({
          ...{ id: clip.id, view: clip.view },
          named: Object.fromEntries((namedOf.get(clip.id) ?? []).map((each) => [each.checkpoint, each.frame_index])),
        })),
      })),
    })),
  }));
}

/** What a list says of a lesson's page. */
function worded(page: LessonPage | undefined): { readonly page?: Pick<LessonPage, 'findings' | 'keyThoughts'> } {
  return page === undefined ? {} : { page: { findings: page.findings, keyThoughts: page.keyThoughts } };
}
