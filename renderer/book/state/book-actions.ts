import { say } from '../../../core/model/say.ts';
import { writeDaysAs } from '../../../core/model/day-in-words.ts';
import { isolated } from '../../../core/model/isolated.ts';
import type { Lesson, Student } from '../../../core/model/book.ts';
import type { NewLesson, NewStudent } from '../../../electron/ipc/contract.ts';
import { ask } from '../../api.ts';
import { app, setApp } from '../../shell/state/app-state.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { attempt, sayTrouble, tellDone } from '../../shell/state/messages.ts';
import { createPlace } from '../../shell/state/place.ts';

/** The list of students. */
const studentsPlace = createPlace();

/** Whose lessons are listed. */
const studentPlace = createPlace();

/** Lists the lessons of a student. */
export function chooseStudent(studentId: string): void {
  studentPlace.leave();
  setApp({ studentId });
}

/** Reads the facts and the list of students; to be called at start and after each change of the book. */
export async function readBook(): Promise<void> {
  await studentsPlace.fill(
    () => Promise.all([ask('program/facts', null), ask('student/list', null)]),
    ([facts, students]) => {
      // Before any day is shown.
      writeDaysAs(facts.place);
      const { studentId, facts: before } = app.get();
      const known = students.some((entry) => entry.student.id === studentId);
      setApp({ facts, students, studentId: known ? studentId : (students[0]?.student.id ?? null) });
      // Once, with the start.
      if (before === null && facts.strays.length > 0) sayTrouble(facts.strays.join(' '));
    },
  );
}

export async function makeDemo(): Promise<void> {
  await runJob(say`Making the demo book`, (jobId) => ask('demo/make', { jobId }));
  await readBook();
}

/** Adds a student (null) or changes one, and then offers to take the change back. */
export async function saveStudent(id: string | null, fields: NewStudent): Promise<Student> {
  const isWanted = studentPlace.holds();
  const before = app.get().students?.find((each) => each.student.id === id)?.student;
  const student = await (id === null ? ask('student/add', fields) : ask('student/change', { id, ...fields }));
  // Another was chosen meanwhile: that one stays.
  if (isWanted()) setApp({ studentId: student.id });
  await readBook();
  if (before !== undefined) {
    const { id: same, ...was } = before;
    const takeBack = async (): Promise<void> => {
      await ask('student/change', { id: same, ...was });
      await readBook();
    };
    const label = say`Undo`;
    tellDone(say`Changed ${isolated(student.firstName)}.`, { label, run: () => void attempt(takeBack), waits: true });
  }
  return student;
}

export async function saveLesson(id: string | null, fields: NewLesson): Promise<Lesson> {
  const { date, club, handedness, note } = fields;
  const lesson = await (id === null
    ? ask('lesson/add', fields)
    : ask('lesson/change', { id, date, club, handedness, note }));
  if (id === null) await ask('swing/add', { lessonId: lesson.id, label: say`Swing 1` });
  await readBook();
  return lesson;
}

/** Adds a swing to a lesson, named by its place, e.g. "Swing 3". */
export async function addSwing(lessonId: string, swingsBefore: number): Promise<string> {
  const swing = await ask('swing/add', { lessonId, label: say`Swing ${String(swingsBefore + 1)}` });
  await readBook();
  return swing.id;
}
