import { useState } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import type { StudentOverview } from '../../core/model/book.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
import { isolated } from '../../core/model/isolated.ts';
import type { ChosenSwingFile } from '../../electron/ipc/contract.ts';
import { attempt, tellTrouble } from '../shell/state/messages.ts';
import { chooseClipFile } from '../swing/state/swing-actions.ts';
import { importSwing } from './state/swing-file-actions.ts';
import { CONSENT } from '../../core/measure/words/cautions.ts';
import styles from '../swing/clip-head.module.css';
import lay from '../controls/lay.module.css';
import { Button } from '../controls/button.tsx';
import { FormDialog } from '../controls/dialog.tsx';
import { Picker } from '../controls/fields.tsx';
import { studentName } from '../shell/words.ts';

const NEW = say`new student`;
type Clip = ChosenSwingFile['clips'][number];

/** What a swing file holds, whose it becomes, and where its clips are: one that is not where the file says is asked for. */
export function SwingFileDialog(props: {
  readonly file: ChosenSwingFile;
  readonly students: readonly StudentOverview[];
  /** The student whose lessons are on screen. */
  readonly studentId: string | null;
  readonly onClose: () => void;
}) {
  const { file, students, onClose } = props;
  const [student, setStudent] = useState(() => likely(file, students, props.studentId));
  const [chosen, setChosen] = useState<Readonly<Partial<Record<View, string>>>>({});
  const [trouble, setTrouble] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const files = file.clips.flatMap(({ view, path }) => {
    const at = chosen[view] ?? path;
    return at === null ? [] : [{ view, path: at }];
  });
  const bringIn = async (): Promise<void> => {
    setTrouble(null);
    setBusy(true);
    try {
      await importSwing({ path: file.path, studentId: student === NEW ? null : student, files });
      onClose();
    } catch (error) {
      setBusy(false);
      if (!(error instanceof AppError)) tellTrouble(error);
      else if (error.code !== 'cancelled') setTrouble(namedPlainly(error.message, file.clips));
    }
  };
  const choose = async (view: View): Promise<void> => {
    const path = await chooseClipFile();
    if (path !== null) setChosen((all) => ({ ...all, [view]: path }));
  };
  return (
    <FormDialog
      title={say`Import a swing`}
      doIt={say`Import the swing`}
      disabled={files.length === 0 || busy}
      onDo={() => void bringIn()}
      onClose={onClose}
    >
      <p>{say`${isolated(file.firstName)}, ${dayInWords(file.date)}, ${isolated(file.club)}. It comes in as a new swing: nothing that is in the book is changed.`}</p>
      <Picker
        label={say`Whose swing is it?`}
        value={student}
        options={[
          ...students.map((each) => ({ value: each.student.id, label: studentName(each.student) })),
          { value: NEW, label: say`A new student, ${isolated(file.firstName)}` },
        ]}
        onChange={(value) => setStudent(value ?? NEW)}
      />
      <ul aria-label={say`Clips`} className={lay.wide}>
        {file.clips.map((clip) => (
          <li key={clip.view}>
            <p style={{ overflowWrap: 'anywhere' }}>{clipInWords(clip, chosen[clip.view])}</p>
            <Button
              small
              label={say`Choose the clip, ${lowered(VIEW_LABELS[clip.view])}`}
              disabled={busy}
              onPress={() => void attempt(() => choose(clip.view))}
            >
              {clip.path === null ? say`Choose the clip` : say`Choose another file`}
            </Button>
          </li>
        ))}
      </ul>
      {file.clips.length === 0 ? <p>{say`This file names no clip, so there is nothing to bring in.`}</p> : null}
      {trouble === null ? null : (
        <p role="alert" className={styles.caution}>
          {trouble}
        </p>
      )}
      <p className={styles.caution}>{CONSENT}</p>
    </FormDialog>
  );
}

/** A sentence about a clip calls it by its own name: a file within a book has one that nobody gave it. */
function namedPlainly(sentence: string, clips: readonly Clip[]): string {
  return clips.reduce(
    (text, { name, path }) => (path === null ? text : text.replaceAll(path, isolated(name))),
    sentence,
  );
}

function clipInWords({ view, name, path }: Clip, chosen: string | undefined): string {
  const label = VIEW_LABELS[view];
  if (chosen !== undefined) return `${label}: ${isolated(chosen)}`;
  if (path !== null) return say`${label}: ${isolated(name)}, found where the file says.`;
  return say`${label}: ${isolated(name)} is not where the file says. Choose it, or this view is left out.`;
}

/** The student on screen where the first name is the same, else another of that name, else a new one. */
function likely(file: ChosenSwingFile, students: readonly StudentOverview[], studentId: string | null): string {
  const alike = students.filter(({ student }) => student.firstName === file.firstName);
  const found = alike.find(({ student }) => student.id === studentId) ?? alike[0];
  return found?.student.id ?? NEW;
}
