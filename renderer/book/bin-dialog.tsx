import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import { BIN_DAYS, type BinKind } from '../../core/model/bin.ts';
import { isolated } from '../../core/model/isolated.ts';
import { Button } from '../controls/button.tsx';
import { ConfirmDialog, Dialog } from '../controls/dialog.tsx';
import { emptyBin, listBin, putBack } from '../shell/state/bin.ts';
import { attempt } from '../shell/state/messages.ts';
import { useAnswer } from '../shell/use-answer.ts';
import styles from './bin-dialog.module.css';

const KIND_WORDS: Readonly<Record<BinKind, string>> = {
  student: say`Student`,
  lesson: say`Lesson`,
  swing: say`Swing`,
  clip: say`Clip`,
};

/** What was removed: each can be put back, or removed for good; so can all. */
export function BinDialog({ onClose }: { readonly onClose: () => void }) {
  /** Counts what was done here, so that the list is asked for anew. */
  const [change, setChange] = useState(0);
  /** What is asked about: one entry, or all of them (null). */
  const [leaving, setLeaving] = useState<{ readonly id: string | null } | null>(null);
  const came = useAnswer(change, listBin);
  const entries = came !== null && 'answer' in came ? came.answer : null;
  const doing = (action: () => Promise<void>): void => {
    void attempt(action).then(() => setChange((count) => count + 1));
  };
  return (
    <Dialog title={say`Bin`} onClose={onClose}>
      <p>{said`What you remove stays here for ${BIN_DAYS} days, with its clips and marks. Then it goes for good, and nothing of it stays on this computer.`}</p>
      {entries?.length === 0 ? <p>{say`The bin is empty.`}</p> : null}
      <ul className={styles.list}>
        {entries?.map((entry) => (
          <li key={entry.id} className={styles.entry}>
            <span className={styles.name}>
              {isolated(entry.name)}
              <span className={styles.small}>
                {KIND_WORDS[entry.kind]}, {leftInWords(entry.daysLeft)}
              </span>
            </span>
            <Button
              label={say`Put back ${isolated(entry.name)}`}
              onPress={() => doing(() => putBack(entry))}
            >{say`Put back`}</Button>
            <Button
              look="quiet"
              label={say`Remove ${isolated(entry.name)} for good`}
              onPress={() => setLeaving({ id: entry.id })}
            >{say`Remove for good`}</Button>
          </li>
        ))}
      </ul>
      <div className={styles.actions}>
        {(entries?.length ?? 0) < 2 ? null : (
          <Button onPress={() => setLeaving({ id: null })}>{say`Empty the bin`}</Button>
        )}
        <Button look="main" onPress={onClose}>{say`Close`}</Button>
      </div>
      {leaving === null ? null : (
        <ConfirmDialog
          title={leaving.id === null ? say`Empty the bin?` : say`Remove it for good?`}
          what={say`Its marks and the clips that Baybook copied go. This cannot be taken back.`}
          doIt={leaving.id === null ? say`Empty the bin` : say`Remove for good`}
          onDo={() => doing(() => emptyBin(leaving.id))}
          onClose={() => setLeaving(null)}
        />
      )}
    </Dialog>
  );
}

function leftInWords(days: number): string {
  if (days === 0) return say`goes today`;
  return days === 1 ? say`1 day left` : say`${String(days)} days left`;
}
