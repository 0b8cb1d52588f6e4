import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import type { Student } from '../../core/model/book.ts';
import { saveStudent } from './state/book-actions.ts';
import { attempt } from '../shell/state/messages.ts';
import { FormDialog } from '../controls/dialog.tsx';
import { Check, TextEntry } from '../controls/fields.tsx';
import { PlaysChoice } from './plays-choice.tsx';

/** Adds a student (null) or changes one. */
export function StudentForm(props: { readonly student: Student | null; readonly onClose: () => void }) {
  const { student, onClose } = props;
  const [firstName, setFirstName] = useState(student?.firstName ?? '');
  const [lastName, setLastName] = useState(student?.lastName ?? '');
  const [handedness, setHandedness] = useState(student?.handedness ?? 'right');
  const [child, setChild] = useState(student?.child === true);
  const save = async () => {
    const names = { firstName: firstName.trim(), lastName: lastName.trim(), handedness };
    const fields = child ? { ...names, child } : names;
    if (await attempt(() => saveStudent(student?.id ?? null, fields))) onClose();
  };
  return (
    <FormDialog
      title={student === null ? say`Add a student` : say`Change student`}
      doIt={student === null ? say`Add student` : say`Save`}
      onDo={() => void save()}
      onClose={onClose}
      disabled={firstName.trim() === ''}
    >
      <TextEntry
        label={say`First name`}
        hint={say`Written on the stills you send. They also show the date, the club and the student’s picture.`}
        value={firstName}
        onChange={setFirstName}
        maxLength={80}
        required
        autoFocus
      />
      <TextEntry label={say`Last name (optional)`} value={lastName} onChange={setLastName} maxLength={80} />
      <PlaysChoice value={handedness} onChange={setHandedness} />
      <Check checked={child} onChange={setChild}>
        {say`A child: ask for consent before anything is saved or sent`}
      </Check>
    </FormDialog>
  );
}
