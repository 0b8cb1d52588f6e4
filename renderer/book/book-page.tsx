import { useState } from 'react';
import { said } from '../controls/said.tsx';
import type { StudentOverview } from '../../core/model/book.ts';
import type { ChosenSwingFile } from '../../electron/ipc/contract.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { isolated } from '../../core/model/isolated.ts';
import { HANDEDNESS_LABELS } from '../../core/model/words.ts';
import { say } from '../../core/model/say.ts';
import { app } from '../shell/state/app-state.ts';
import { isBusy } from '../shell/state/jobs.ts';
import { lastSwing } from './state/last-swing.ts';
import { makeDemo } from './state/book-actions.ts';
import { moveToBin } from '../shell/state/bin.ts';
import { attempt } from '../shell/state/messages.ts';
import { chooseSwingFile } from './state/swing-file-actions.ts';
import { useStore } from '../shell/state/store.ts';
import styles from './book-page.module.css';
import lay from '../controls/lay.module.css';
import { Cautions } from '../shell/cautions.tsx';
import { BinDialog } from './bin-dialog.tsx';
import { LessonCard } from './lesson-card.tsx';
import { LessonForm } from './lesson-form.tsx';
import { Button } from '../controls/button.tsx';
import { StudentForm } from './student-form.tsx';
import { StudentList } from './student-list.tsx';
import { SwingFileDialog } from './swing-file-dialog.tsx';
import { openSwing } from '../swing/state/swing-actions.ts';
import { lessonName, studentName } from '../shell/words.ts';

/** The coach's students and their lessons; an empty book says how to begin. */
export function BookPage() {
  const students = useStore(app, (state) => state.students);
  const studentId = useStore(app, (state) => state.studentId);
  const [adding, setAdding] = useState(false);
  const [bin, setBin] = useState(false);
  const [file, setFile] = useState<ChosenSwingFile | null>(null);
  const choose = () => void attempt(async () => setFile(await chooseSwingFile()));
  if (students === null) return <p className={styles.lessons}>{say`Opening.`}</p>;
  const chosen = students.find((entry) => entry.student.id === studentId);
  const form = bin ? (
    <BinDialog onClose={() => setBin(false)} />
  ) : adding ? (
    <StudentForm student={null} onClose={() => setAdding(false)} />
  ) : file === null ? null : (
    <SwingFileDialog file={file} students={students} studentId={studentId} onClose={() => setFile(null)} />
  );
  if (students.length === 0)
    return <Welcome onAdd={() => setAdding(true)} onImport={choose} onBin={() => setBin(true)} form={form} />;
  return (
    <div className={styles.book}>
      <nav className={styles.students} aria-label={say`Students`}>
        <Button onPress={() => setAdding(true)}>{say`Add a student`}</Button>
        <Button look="quiet" onPress={choose}>{say`Import a swing`}</Button>
        <Button look="quiet" onPress={() => setBin(true)}>{say`Bin`}</Button>
        <GoOn students={students} />
        <StudentList students={students} studentId={studentId} />
      </nav>
      {chosen === undefined ? null : <StudentLessons key={chosen.student.id} overview={chosen} />}
      {form}
    </div>
  );
}

/** Leads to the swing that was open last. */
function GoOn({ students }: { readonly students: readonly StudentOverview[] }) {
  const last = lastSwing(students);
  if (last === null) return null;
  const { id, label, student, lesson } = last;
  const name = `${isolated(student.firstName)}, ${lessonName(lesson)}, ${isolated(label)}`;
  return (
    <Button label={say`Go on with ${name}`} onPress={() => void attempt(() => openSwing(id))}>
      <span>{said`Go on with ${<strong>{isolated(student.firstName)}</strong>}, ${dayInWords(lesson.date)}`}</span>
    </Button>
  );
}

function Welcome(props: {
  readonly onAdd: () => void;
  readonly onImport: () => void;
  readonly onBin: () => void;
  readonly form: React.ReactNode;
}) {
  const busy = useStore(app, isBusy);
  return (
    <div className={styles.welcome}>
      <h2>{say`No students yet.`}</h2>
      <p>{say`Baybook keeps your students, their lessons and the clips you film in the bay. It measures what you mark on a frame, with how sure each number is. Begin with “Add your first student”.`}</p>
      <div className={lay.row}>
        <Button look="main" onPress={props.onAdd} disabled={busy}>{say`Add your first student`}</Button>
        <Button onPress={() => void attempt(makeDemo)} disabled={busy}>{say`Look at a made-up student`}</Button>
        <Button look="quiet" onPress={props.onImport} disabled={busy}>{say`Import a swing`}</Button>
        <Button look="quiet" onPress={props.onBin} disabled={busy}>{say`Bin`}</Button>
      </div>
      <p
        className={lay.soft}
      >{say`The demo is a made-up student with two lessons a month apart. Remove that student whenever you like.`}</p>
      <Cautions />
      {props.form}
    </div>
  );
}

function StudentLessons({ overview }: { readonly overview: StudentOverview }) {
  const { student, lessons } = overview;
  const [open, setOpen] = useState<'change' | 'lesson' | null>(null);
  const close = () => setOpen(null);
  return (
    <section className={styles.lessons} aria-label={say`Lessons of ${studentName(student)}`}>
      <div className={styles.titleRow}>
        <h2>{studentName(student)}</h2>
        <span className={lay.soft}>
          {HANDEDNESS_LABELS[student.handedness]}
          {student.child === true ? say`, child` : ''}
        </span>
        <Button look="quiet" onPress={() => setOpen('change')}>{say`Change student`}</Button>
        <Button
          look="quiet"
          onPress={() => void attempt(() => moveToBin('student', student.id))}
        >{say`Remove student`}</Button>
        <Button look="main" onPress={() => setOpen('lesson')}>{say`Add a lesson`}</Button>
      </div>
      {lessons.length === 0 ? (
        <p>{say`No lesson yet. Press “Add a lesson”: its date, the club, and then the clips you filmed.`}</p>
      ) : null}
      {lessons.map((entry) => (
        <LessonCard key={entry.lesson.id} entry={entry} student={student} />
      ))}
      {open === 'change' ? <StudentForm student={student} onClose={close} /> : null}
      {open === 'lesson' ? <LessonForm student={student} lesson={null} onClose={close} /> : null}
    </section>
  );
}
