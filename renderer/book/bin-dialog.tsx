import { useState } from 'react';
import { BIN_DAYS, type BinKind } from '../../core/model/bin.ts';
import { isolated } from '../../core/model/isolated.ts';
import { Button } from '../controls/button.tsx';
import { ConfirmDialog, Dialog } from '../controls/dialog.tsx';
import { emptyBin, listBin, putBack } from '../shell/state/bin.ts';
import { attempt } from '../shell/state/messages.ts';
import { useAnswer } from '../shell/use-answer.ts';
import styles from './bin-dialog.module.css';

const KIND_WORDS: Readonly<Record<BinKind, string>> = {
  student: 'Student',
  lesson: 'Lesson',
  swing: 'Swing',
  clip: 'Clip',
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
    <Dialog title="Bin" onClose={onClose}>
      <p>
        What you remove stays here for {BIN_DAYS} days, with its clips and marks. Then it goes for good, and nothing of
        it stays on this computer.
      </p>
      {entries?.length === 0 ? <p>The bin is empty.</p> : null}
      <ul className={styles.list}>
        {entries?.map((entry) => (
          <li key={entry.id} className={styles.entry}>
            <span className={styles.name}>
              {isolated(entry.name)}
              <span className={styles.small}>
                {KIND_WORDS[entry.kind]}, {leftInWords(entry.daysLeft)}
              </span>
            </span>
            <Button label={`Put back ${isolated(entry.name)}`} onPress={() => doing(() => putBack(entry))}>
              Put back
            </Button>
            <Button
              look="quiet"
              label={`Remove ${isolated(entry.name)} for good`}
              onPress={() => setLeaving({ id: entry.id })}
            >
              Remove for good
            </Button>
          </li>
        ))}
      </ul>
      <div className={styles.actions}>
        {(entries?.length ?? 0) < 2 ? null : <Button onPress={() => setLeaving({ id: null })}>Empty the bin</Button>}
        <Button look="main" onPress={onClose}>
          Close
        </Button>
      </div>
      {leaving === null ? null : (
        <ConfirmDialog
          title={leaving.id === null ? 'Empty the bin?' : 'Remove it for good?'}
          what="Its marks and the clips that Baybook copied go. This cannot be taken back."
          doIt={leaving.id === null ? 'Empty the bin' : 'Remove for good'}
          onDo={() => doing(() => emptyBin(leaving.id))}
          onClose={() => setLeaving(null)}
        />
      )}
    </Dialog>
  );
}

function leftInWords(days: number): string {
  if (days === 0) return 'goes today';
  return days === 1 ? '1 day left' : `${String(days)} days left`;
}
