import { say } from '../../core/model/say.ts';
import { app } from '../shell/state/app-state.ts';
import { closeRepeatCheck, stageOf } from './state/repeat-check.ts';
import { useStore } from '../shell/state/store.ts';
import { KeptChecks } from './kept-checks.tsx';
import { LearntErrors } from './learnt-errors.tsx';
import { Button } from '../controls/button.tsx';
import { RepeatChoosing } from './repeat-choosing.tsx';
import styles from './repeat-page.module.css';
import lay from '../controls/lay.module.css';
import { RepeatNamingView } from './repeat-naming.tsx';
import { RepeatPlacing } from './repeat-placing.tsx';
import { RepeatResult } from './repeat-result.tsx';

/** The repeat check, from the choice of frames to its numbers. */
export function RepeatPage() {
  const stage = useStore(app, stageOf);
  if (stage === null) return null;
  if (stage.name === 'naming') return <RepeatNamingView stage={stage} />;
  if (stage.name === 'placing') return <RepeatPlacing stage={stage} />;
  if (stage.name === 'result') return <RepeatResult check={stage.check} />;
  return (
    <div className={styles.page}>
      <h2>{say`How steady is your hand?`}</h2>
      <p>{say`You’ll see frames you’ve marked, without marks and shuffled: click the same points again. You’ll see clips without their names: find the same frames again. Then every ± uses your own hand instead of an assumed one.`}</p>
      <RepeatChoosing />
      <KeptChecks />
      <LearntErrors />
      <div className={lay.row}>
        <Button onPress={closeRepeatCheck}>{say`Close`}</Button>
      </div>
    </div>
  );
}
