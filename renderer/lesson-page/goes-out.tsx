import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import type { BookSwing } from '../../core/model/book.ts';
import { PLACEHOLDERS, PLACEHOLDER_NAMES } from '../../core/model/lesson-page.ts';
import type { SentLesson } from '../../core/report/sent-lesson.ts';
import type { LessonFile, LessonFilesOrder } from '../../electron/ipc/contract.ts';
import { Button } from '../controls/button.tsx';
import { Choice, TextEntry } from '../controls/fields.tsx';
import { Fold } from '../controls/fold.tsx';
import { app } from '../shell/state/app-state.ts';
import { isBusy } from '../shell/state/jobs.ts';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { ConsentNote } from '../swing/consent.tsx';
import { printLesson } from './print-lesson.tsx';
import { changeLetter, library } from './state/library.ts';
import { saveLesson } from './state/page-actions.ts';
import styles from './lesson-page.module.css';
import lay from '../controls/lay.module.css';

const MOST_TEXT = 1000;

/** As what the lesson goes out, with what is to be minded before it does. */
export function GoesOut(props: {
  readonly swing: BookSwing;
  readonly lesson: SentLesson | null;
  readonly isEmpty: boolean;
}) {
  const { swing, lesson, isEmpty } = props;
  const busy = useStore(app, isBusy);
  const letter = useStore(library, (state) => state.letter);
  const [paper, setPaper] = useState<LessonFilesOrder['paper']>('A4');
  const save = (as: LessonFile) => void attempt(() => saveLesson(as, paper));
  const disabled = busy || lesson === null;
  return (
    <aside className={styles.panel} aria-label={say`What goes out`}>
      <h2>{say`What goes out`}</h2>
      <p
        className={lay.soft}
      >{say`A mail you have not sent yet, with the stills and this page as PDF. You look it over and send it yourself.`}</p>
      <ConsentNote swing={swing} />
      <ul className={styles.mind} aria-label={say`Please mind`}>
        {lesson?.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <Button look="main" disabled={disabled || isEmpty} onPress={() => save('mail')}>{say`Save mail draft`}</Button>
      {isEmpty ? <p className={lay.soft}>{say`Write a finding or a key thought first.`}</p> : null}
      <Choice
        label={say`Paper`}
        value={paper}
        options={[
          { value: 'A4', label: 'A4' },
          { value: 'Letter', label: 'Letter' },
        ]}
        onChange={setPaper}
      />
      <Button disabled={disabled || isEmpty} onPress={() => save('pdf')}>{say`Save PDF`}</Button>
      <Button disabled={disabled || isEmpty} onPress={() => void attempt(() => printLesson(paper))}>
        {say`Print`}
      </Button>
      <Button disabled={disabled || isEmpty} onPress={() => save('all')}>{say`Save all in a folder`}</Button>
      <Button look="quiet" disabled={disabled} onPress={() => save('csv')}>{say`Numbers for a spreadsheet`}</Button>
      <Fold head={say`Your letter`}>
        <p
          className={lay.soft}
        >{said`For every lesson. ${PLACEHOLDERS.map((name) => `{${PLACEHOLDER_NAMES[name]}}`).join(', ')} are filled in.`}</p>
        <TextEntry
          label={say`Subject`}
          value={letter.subject}
          maxLength={MOST_TEXT}
          onChange={(subject) => changeLetter({ subject })}
        />
        <TextEntry
          label={say`Opening`}
          long
          value={letter.opening}
          maxLength={MOST_TEXT}
          onChange={(opening) => changeLetter({ opening })}
        />
        <TextEntry
          label={say`Closing`}
          long
          value={letter.closing}
          maxLength={MOST_TEXT}
          onChange={(closing) => changeLetter({ closing })}
        />
      </Fold>
    </aside>
  );
}
