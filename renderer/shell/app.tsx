import type { Edit } from '../../core/model/edit.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import { isolated } from '../../core/model/isolated.ts';
import { app } from './state/app-state.ts';
import { benchClip, closeBench } from '../bench/state/bench-actions.ts';
import { attempt } from './state/messages.ts';
import { openRepeatCheck, repeatCheck } from '../repeat/state/repeat-check.ts';
import { patternOpen, patternSaving } from '../pattern/state/pattern.ts';
import { settingsOpen } from './state/settings-open.ts';
import { useStore } from './state/store.ts';
import { closeSwing, stepEdits } from '../swing/state/swing-actions.ts';
import { windingUp } from './state/winding-up.ts';
import styles from './app.module.css';
import { BenchPage } from '../bench/bench-page.tsx';
import { BookPage } from '../book/book-page.tsx';
import { JobBars, MessageBar } from './bars.tsx';
import { CopyStatus } from './copy-status.tsx';
import { editInWords } from '../swing/edit-words.ts';
import { Button } from '../controls/button.tsx';
import { RepeatPage } from '../repeat/repeat-page.tsx';
import { PatternPage } from '../pattern/pattern-page.tsx';
import { SettingsDialog } from './settings-dialog.tsx';
import { SheetPage } from '../sheet/sheet-page.tsx';
import { useUndoKeys } from './use-undo-keys.ts';
import { lessonName, studentName } from './words.ts';

/** The whole window: where one is, the place itself, and what the program has to say. */
export function App() {
  useUndoKeys();
  const swing = useStore(app, (state) => state.swing);
  const onBench = useStore(app, (state) => state.bench !== null);
  const checking = useStore(repeatCheck, (stage) => stage !== null);
  const onPattern = useStore(patternOpen, (state) => state);
  const closing = useStore(windingUp, (state) => state);
  return (
    <div className={styles.app}>
      {checking ? <RepeatHead /> : <Trail />}
      <main className={styles.page}>
        {checking ? (
          <RepeatPage />
        ) : onPattern ? (
          <PatternPage />
        ) : swing === null ? (
          <BookPage />
        ) : onBench ? (
          <BenchPage />
        ) : (
          <SheetPage swing={swing} />
        )}
      </main>
      {closing ? <Closing /> : null}
      <div className={styles.bars}>
        <JobBars />
        <MessageBar />
      </div>
    </div>
  );
}

function Closing() {
  const working = useStore(app, (state) => state.jobs.length > 0);
  return (
    <p className={styles.closing} role="status">
      {working
        ? 'Baybook closes once this is done. Close it again for another choice.'
        : 'Saving the latest changes before Baybook closes.'}
    </p>
  );
}

/** Where one is in the book; each earlier place is a way back. */
function Trail() {
  const swing = useStore(app, (state) => state.swing);
  const clip = useStore(app, (state) => benchClip(state));
  const onPattern = useStore(patternOpen, (state) => state);
  const marksSaving = useStore(app, (state) => state.saving);
  const saving = useStore(patternSaving, (state) => (onPattern ? state : marksSaving));
  const leavePattern = () => patternOpen.update(() => false);
  const goToBook = () => {
    leavePattern();
    if (swing !== null) void attempt(closeSwing);
  };
  const goToSheet = () => {
    leavePattern();
    closeBench();
  };
  const sheetName =
    swing === null ? '' : `${studentName(swing.student)}, ${lessonName(swing.lesson)}, ${isolated(swing.swing.label)}`;
  // On the bench the head has less room; the rest of the name comes up where the pointer rests.
  const sheetWords = clip === null || swing === null ? sheetName : `Lesson sheet: ${isolated(swing.student.firstName)}`;
  return (
    <header className={styles.head}>
      <nav aria-label="Where you are" className={styles.trail}>
        <ol className={styles.trail}>
          <Step name="Book" here={swing === null && !onPattern} go={goToBook} />
          {swing === null ? null : (
            <Step
              name={sheetWords}
              label={clip === null ? sheetName : `Lesson sheet: ${sheetName}`}
              here={clip === null && !onPattern}
              go={goToSheet}
            />
          )}
          {clip === null ? null : <Step name={VIEW_LABELS[clip.view]} here={!onPattern} go={leavePattern} />}
          {onPattern ? <Step name="Pattern" here go={leavePattern} /> : null}
        </ol>
      </nav>
      {swing === null ? null : <CopyStatus />}
      {swing === null || onPattern ? null : <UndoRedo />}
      <Button small look="quiet" onPress={openRepeatCheck}>
        Repeat check
      </Button>
      <Button
        small
        look={onPattern ? 'main' : 'quiet'}
        label="Pattern: what is wanted"
        pressed={onPattern}
        onPress={() => patternOpen.update((open) => !open)}
      >
        Pattern
      </Button>
      <KeysButton />
      {swing === null && !onPattern ? null : (
        <span className={styles.saving} data-state={saving} role="status">
          {saving === 'saved' ? 'All saved' : saving === 'saving' ? 'Saving' : 'Not saved'}
        </span>
      )}
    </header>
  );
}

/** While points are placed again nothing else is in sight, and nothing leads away by the way. */
function RepeatHead() {
  return (
    <header className={styles.head}>
      <h1 className={styles.here} style={{ fontSize: '1rem' }}>
        Repeat check
      </h1>
    </header>
  );
}

function Step(props: {
  readonly name: string;
  /** The whole of a name that is shown shortened. */
  readonly label?: string;
  readonly here: boolean;
  readonly go: () => void;
}) {
  return (
    <li title={props.label}>
      {props.here ? (
        <h1 className={styles.here} aria-current="page" style={{ fontSize: '1rem' }}>
          {props.name}
        </h1>
      ) : (
        <Button look="quiet" onPress={props.go} {...(props.label === undefined ? {} : { label: props.label })}>
          {props.name}
        </Button>
      )}
    </li>
  );
}

/** Opens the list of keys, also by its own key. */
function KeysButton() {
  const open = useStore(settingsOpen, (state) => state);
  return (
    <>
      <Button small look="quiet" onPress={() => settingsOpen.update(() => true)}>
        Keys and text
      </Button>
      {open ? <SettingsDialog onClose={() => settingsOpen.update(() => false)} /> : null}
    </>
  );
}

function UndoRedo() {
  const last = useStore(app, (state) => state.history.done.at(-1) ?? null);
  const next = useStore(app, (state) => state.history.undone.at(-1) ?? null);
  return (
    <div className={styles.pair}>
      <StepButton name="Undo" edit={last} step="undo" />
      <StepButton name="Redo" edit={next} step="redo" />
    </div>
  );
}

/** Says what it takes back, or makes again, where that is asked for: in its name and when the pointer rests on it. */
function StepButton(props: { readonly name: string; readonly edit: Edit | null; readonly step: 'undo' | 'redo' }) {
  const { name, edit, step } = props;
  const swing = useStore(app, (state) => state.swing);
  const words = edit === null ? name : `${name}: ${editInWords(edit, swing?.swing.id ?? null)}`;
  return (
    <span title={words}>
      <Button small label={words} disabled={edit === null} onPress={() => void attempt(() => stepEdits(step))}>
        {name}
      </Button>
    </span>
  );
}
