import { app } from '../shell/state/app-state.ts';
import { closeRepeatCheck, stageOf } from './state/repeat-check.ts';
import { useStore } from '../shell/state/store.ts';
import { KeptChecks } from './kept-checks.tsx';
import { Button } from '../controls/button.tsx';
import { RepeatChoosing } from './repeat-choosing.tsx';
import styles from './repeat-page.module.css';
import lay from '../controls/lay.module.css';
import { RepeatPlacing } from './repeat-placing.tsx';
import { RepeatResult } from './repeat-result.tsx';

/** The repeat check, from the choice of frames to its numbers. */
export function RepeatPage() {
  const stage = useStore(app, stageOf);
  if (stage === null) return null;
  if (stage.name === 'placing') return <RepeatPlacing stage={stage} />;
  if (stage.name === 'result') return <RepeatResult check={stage.check} />;
  return (
    <div className={styles.page}>
      <h2>How far do your own placings scatter?</h2>
      <p>
        Baybook shows you marked frames again, without any marks and in mixed order, and you place the same points anew.
        From that it works out your own placing error, and the ± of readings rests on it instead of an assumed one.
      </p>
      <RepeatChoosing />
      <KeptChecks />
      <div className={lay.row}>
        <Button onPress={closeRepeatCheck}>Close</Button>
      </div>
    </div>
  );
}
