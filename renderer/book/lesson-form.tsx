import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import type { Lesson, Student } from '../../core/model/book.ts';
import { CLUBS } from '../../core/model/words.ts';
import { saveLesson } from './state/book-actions.ts';
import { attempt } from '../shell/state/messages.ts';
import { FormDialog } from '../controls/dialog.tsx';
import { TextEntry } from '../controls/fields.tsx';
import { PlaysChoice } from './plays-choice.tsx';

/** Today where the coach is, as an ISO day. */
function today(): string {
  const now = new Date();
  const pad = (part: number): string => String(part).padStart(2, '0');
  return `${String(now.getFullYear())}-${pad(now.getMonth() + 1)}-${pad(now.getDate())}`;
}

/** Adds a lesson (null) or changes one. */
export function LessonForm(props: {
  readonly student: Student;
  readonly lesson: Lesson | null;
  readonly onClose: () => void;
}) {
  const { student, lesson, onClose } = props;
  const [date, setDate] = useState(lesson?.date ?? today());
  const [club, setClub] = useState(lesson?.club ?? say`7 iron`);
  const [handedness, setHandedness] = useState(lesson?.handedness ?? student.handedness);
  const [note, setNote] = useState(lesson?.note ?? '');
  const save = async () => {
    const fields = { studentId: student.id, date, club: club.trim(), handedness, note };
    if (await attempt(() => saveLesson(lesson?.id ?? null, fields))) onClose();
  };
  return (
    <FormDialog
      title={lesson === null ? say`Add a lesson` : say`Change lesson`}
      doIt={lesson === null ? say`Add lesson` : say`Save`}
      onDo={() => void save()}
      onClose={onClose}
      disabled={date === '' || club.trim() === ''}
    >
      <TextEntry label={say`Date`} type="date" value={date} onChange={setDate} required />
      <TextEntry label={say`Club`} value={club} onChange={setClub} maxLength={80} offers={CLUBS} required />
      <PlaysChoice value={handedness} onChange={setHandedness} />
      <TextEntry label={say`Note (for yourself)`} value={note} onChange={setNote} long />
    </FormDialog>
  );
}
