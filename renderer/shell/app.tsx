import { say } from '../../core/model/say.ts';
import type { Edit } from '../../core/model/edit.ts';
import { TERMS } from '../../core/measure/words/glossary.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import { isolated } from '../../core/model/isolated.ts';
import { app } from './state/app-state.ts';
import { benchClip } from '../bench/state/bench-actions.ts';
import { withKey } from './key-words.ts';
import { attempt } from './state/messages.ts';
import { openRepeatCheck } from '../repeat/state/repeat-check.ts';
import { goalsSaving } from '../goals/state/goals.ts';
import { backTo, goBack, openHelp, openSettings, toggleGoals } from './state/go-back.ts';
import { pageOf } from './state/route.ts';
import { settings } from './state/settings.ts';
import { useStore } from './state/store.ts';
import { stepEdits } from '../swing/state/swing-actions.ts';
import { windingUp } from './state/winding-up.ts';
import styles from './app.module.css';
import { BenchPage } from '../bench/bench-page.tsx';
import { ViewSwitch } from '../bench/view-switch.tsx';
import { BookPage } from '../book/book-page.tsx';
import { ComparisonPage } from '../compare/comparison-page.tsx';
import { JobBars, MessageBar } from './bars.tsx';
import { CopyStatus } from './copy-status.tsx';
import { ConsentDialog } from '../swing/consent.tsx';
import { editInWords } from '../swing/edit-words.ts';
import { useFreshThreads } from '../swing/use-fresh-threads.ts';
import { Button } from '../controls/button.tsx';
import { RepeatPage } from '../repeat/repeat-page.tsx';
import { LessonPage } from '../lesson-page/lesson-page.tsx';
import { GoalsPage } from '../goals/goals-page.tsx';
import { FocusHint } from './focus-hint.tsx';
import { HelpDialog } from './help-dialog.tsx';
import { SettingsDialog } from './settings-dialog.tsx';
import { SheetPage } from '../sheet/sheet-page.tsx';
import { CountIn, RecordingControls } from '../talk/recording-controls.tsx';
import { recording } from '../talk/state/recording.ts';
import { recordTalk, toggleTalkPage } from '../talk/state/talk.ts';
import { TalkPage } from '../talk/talk-page.tsx';
import { useUndoKeys } from './use-undo-keys.ts';
import { lessonName, studentName } from './words.ts';

/** The whole window: where one is, the place itself, and what the program has to say. */
export function App() {
  useUndoKeys();
  useFreshThreads();
  const at = useStore(app, ({ route }) => pageOf(route).at);
  const closing = useStore(windingUp, (state) => state);
  const units = useStore(settings, (state) => state.units);
  return (
    <div className={styles.app}>
      {at === 'repeat check' ? <RepeatHead /> : <Trail />}
      {/* In other units everything is written anew. */}
      <main key={units} className={styles.page}>
        <Page />
      </main>
      <CountIn />
      <ConsentDialog />
      {closing ? <Closing /> : null}
      <div className={styles.bars} data-at={at}>
        <JobBars />
        <MessageBar />
      </div>
      <FocusHint />
    </div>
  );
}

/** The place itself. */
function Page() {
  const at = useStore(app, ({ route }) => pageOf(route).at);
  const swing = useStore(app, (state) => state.swing);
  switch (at) {
    case 'repeat check':
      return <RepeatPage />;
    case 'goals':
      return <GoalsPage />;
    case 'lesson page':
      return swing === null ? null : <LessonPage swing={swing} />;
    case 'talk':
      return swing === null ? null : <TalkPage swing={swing} />;
    case 'book':
      return <BookPage />;
    case 'bench':
      return <BenchPage />;
    case 'comparison':
      return <ComparisonPage />;
    case 'sheet':
      return swing === null ? null : <SheetPage swing={swing} />;
  }
}

function Closing() {
  const working = useStore(app, (state) => state.jobs.length > 0);
  return (
    <p className={styles.closing} role="status">
      {working
        ? say`Baybook closes once this is done. Close it again for another choice.`
        : say`Saving the latest changes before Baybook closes.`}
    </p>
  );
}

/** Where one is in the book; each earlier place is a way back. */
function Trail() {
  const swing = useStore(app, (state) => state.swing);
  const clip = useStore(app, (state) => benchClip(state));
  const at = useStore(app, ({ route }) => pageOf(route).at);
  const onGoals = at === 'goals';
  const isRecording = useStore(recording, ({ stage }) => stage !== 'off');
  const marksSaving = useStore(app, (state) => state.saving);
  const saving = useStore(goalsSaving, (state) => (onGoals ? state : marksSaving));
  const sheetName =
    swing === null ? '' : `${studentName(swing.student)}, ${lessonName(swing.lesson)}, ${isolated(swing.swing.label)}`;
  // On the bench the head has less room; the rest of the name comes up where the pointer rests.
  const sheetWords =
    clip === null || swing === null ? sheetName : say`Lesson sheet: ${isolated(swing.student.firstName)}`;
  return (
    <header className={styles.head}>
      {at === 'book' ? <span className={styles.brand}>{say`Baybook`}</span> : null}
      <nav aria-label={say`Where you are`} className={styles.trail}>
        <ol className={styles.trail}>
          <Step name={say`Students`} here={at === 'book'} go={() => backTo('book')} />
          {swing === null ? null : (
            <Step
              name={sheetWords}
              label={clip === null ? sheetName : say`Lesson sheet: ${sheetName}`}
              here={at === 'sheet'}
              go={() => backTo('sheet')}
            />
          )}
          {clip === null ? null : <Step name={VIEW_LABELS[clip.view]} here={at === 'bench'} go={goBack} />}
          {clip === null || at !== 'bench' ? null : (
            <li className={styles.views}>
              <ViewSwitch clip={clip} />
            </li>
          )}
          {at === 'comparison' ? <Step name={say`Then and now`} here go={goBack} /> : null}
          {at === 'talk' ? <Step name={say`Talk-through`} here go={goBack} /> : null}
          {at === 'lesson page' ? <Step name={say`Lesson page`} here go={goBack} /> : null}
          {onGoals ? <Step name={say`Goals`} here go={goBack} /> : null}
        </ol>
      </nav>
      {swing === null ? null : <CopyStatus />}
      {swing === null || onGoals ? null : <UndoRedo />}
      {isRecording ? (
        <RecordingControls />
      ) : (
        <>
          {swing === null || swing.clips.length === 0 || onGoals ? null : <TalkButtons at={at} />}
          <Button
            small
            look="quiet"
            hint={TERMS.repeatCheck.means}
            onPress={openRepeatCheck}
          >{say`Repeat check`}</Button>
          <Button
            small
            look={onGoals ? 'main' : 'quiet'}
            label={say`Goals: what is wanted`}
            pressed={onGoals}
            onPress={toggleGoals}
          >{say`Goals`}</Button>
          <DialogButtons />
        </>
      )}
      {swing === null && !onGoals ? null : (
        <span className={styles.saving} data-state={saving} role="status">
          {saving === 'saved' ? say`All saved` : saving === 'saving' ? say`Saving` : say`Not saved`}
        </span>
      )}
    </header>
  );
}

/** To the talk-through; where a swing is looked at, also straight to recording it. */
function TalkButtons({ at }: { readonly at: string }) {
  return (
    <>
      {at === 'bench' || at === 'comparison' ? (
        <Button
          small
          look="quiet"
          label={say`Record a talk-through`}
          hint={withKey(say`Record a talk-through, or go on with it`, 'record')}
          onPress={() => void attempt(() => recordTalk())}
        >{say`Record`}</Button>
      ) : null}
      <Button
        small
        look={at === 'talk' ? 'main' : 'quiet'}
        pressed={at === 'talk'}
        onPress={toggleTalkPage}
      >{say`Talk-through`}</Button>
    </>
  );
}

/** While points are placed again nothing else is in sight, and nothing leads away by the way. */
function RepeatHead() {
  return (
    <header className={styles.head}>
      <h1 className={styles.here} style={{ fontSize: '1rem' }}>{say`Repeat check`}</h1>
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

/** Open settings and help, also by their own keys. */
function DialogButtons() {
  const open = useStore(app, ({ route }) => route.at);
  return (
    <>
      <Button small look="quiet" onPress={openHelp}>{say`Help`}</Button>
      <Button small look="quiet" onPress={openSettings}>{say`Settings`}</Button>
      {open === 'settings' ? <SettingsDialog onClose={goBack} /> : null}
      {open === 'help' ? <HelpDialog onClose={goBack} /> : null}
    </>
  );
}

function UndoRedo() {
  const last = useStore(app, (state) => state.history.done.at(-1) ?? null);
  const next = useStore(app, (state) => state.history.undone.at(-1) ?? null);
  return (
    <div className={styles.pair}>
      <StepButton name={say`Undo`} edit={last} step="undo" />
      <StepButton name={say`Redo`} edit={next} step="redo" />
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
      <Button
        small
        look="quiet"
        label={words}
        disabled={edit === null}
        onPress={() => void attempt(() => stepEdits(step))}
      >
        {name}
      </Button>
    </span>
  );
}
