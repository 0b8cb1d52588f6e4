import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import type { StudentOverview } from '../../core/model/book.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { chooseStudent } from './state/book-actions.ts';
import { ListedPicture } from './listed-picture.tsx';
import { pictureOf } from './state/list-pictures.ts';
import { listedStudents } from './listed-students.ts';
import styles from './book-page.module.css';
import lay from '../controls/lay.module.css';
import { TextEntry } from '../controls/fields.tsx';
import { studentName } from '../shell/words.ts';

/** So many are seen at a glance; of more one is found by name. */
const AT_A_GLANCE = 7;

/** The coach's students, those seen last first, and where there are many a field to find one. */
export function StudentList(props: {
  readonly students: readonly StudentOverview[];
  readonly studentId: string | null;
}) {
  const { students, studentId } = props;
  const [typed, setTyped] = useState('');
  const listed = listedStudents(students, typed);
  return (
    <>
      {students.length > AT_A_GLANCE ? (
        <TextEntry label={say`Find a student`} value={typed} onChange={setTyped} />
      ) : null}
      {listed.length === 0 ? <p className={lay.soft}>{say`No student of that name.`}</p> : null}
      <ul>
        {listed.map(({ student, lessons }) => (
          <li key={student.id}>
            <button
              type="button"
              className={styles.student}
              aria-current={student.id === studentId}
              onClick={() => chooseStudent(student.id)}
            >
              <ListedPicture of={pictureOf({ lessons })} size="student" />
              <span className={styles.studentWords}>
                {studentName(student)}
                <span className={lay.soft}>{lessonsInWords(lessons)}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

function lessonsInWords(lessons: StudentOverview['lessons']): string {
  const last = lessons
    .map(({ lesson }) => lesson.date)
    .toSorted()
    .at(-1);
  if (last === undefined) return say`no lesson yet`;
  const count = lessons.length === 1 ? say`1 lesson` : say`${String(lessons.length)} lessons`;
  return say`${count}, last ${dayInWords(last)}`;
}
