import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import { changeGoals, exportGoals, importGoals, ownGoals, resetGoals } from './state/goals.ts';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { Button } from '../controls/button.tsx';
import { CheckedEntry } from '../controls/checked-entry.tsx';
import { ConfirmDialog } from '../controls/dialog.tsx';
import { TextEntry } from '../controls/fields.tsx';
import { GoalsChains } from './goals-chains.tsx';
import styles from './goals-page.module.css';
import { TERMS } from '../../core/measure/words/glossary.ts';
import { BODIES } from '../../core/measure/words/cautions.ts';
import lay from '../controls/lay.module.css';
import { GoalsRanges } from './goals-ranges.tsx';
import { GoalsTolerances } from './goals-tolerances.tsx';
import { MOST_REMARK, readName } from './goals-words.ts';

/** The coach's own goals: what is wanted, what hangs together, what counts as no difference. Kept with every change. */
export function GoalsPage() {
  const { goals, shipped, trouble } = useStore(ownGoals, (state) => state);
  const [asking, setAsking] = useState<'reset' | 'import' | null>(null);
  // Other goals have other entries in the same places: what was half typed goes with the one before.
  const [generation, setGeneration] = useState(0);
  const replaced = () => setGeneration((count) => count + 1);
  const take = async () => {
    if (await importGoals()) replaced();
  };
  const reset = async () => {
    await resetGoals();
    replaced();
  };
  return (
    <div className={styles.page}>
      <div className={styles.titleRow}>
        <h2 title={TERMS.goals.means}>{say`Goals`}</h2>
        <span className={lay.soft}>
          {shipped ? say`As they came with Baybook, not changed yet` : say`Your own, kept in this book`}
        </span>
        <Button onPress={() => (shipped ? void attempt(take) : setAsking('import'))}>{say`Import`}</Button>
        <Button onPress={() => void attempt(exportGoals)}>{say`Export`}</Button>
        <Button
          look="warning"
          disabled={shipped}
          onPress={() => setAsking('reset')}
        >{say`Back to the shipped goals`}</Button>
      </div>
      <p className={lay.soft}>{BODIES}</p>
      {trouble === null ? null : <p className={styles.trouble}>{trouble}</p>}
      <div key={generation} className={styles.parts}>
        <div className={styles.about}>
          <CheckedEntry
            label={say`Name`}
            value={goals.name}
            write={String}
            read={readName}
            onChange={(name) => changeGoals({ name })}
          />
          <TextEntry
            label={say`What this list is`}
            long
            value={goals.about}
            maxLength={MOST_REMARK}
            onChange={(about) => changeGoals({ about })}
          />
        </div>
        <GoalsRanges wanted={goals.wanted} />
        <GoalsChains chains={goals.chains} />
        <GoalsTolerances tolerances={goals.tolerances} />
      </div>
      {asking === 'reset' ? (
        <ConfirmDialog
          title={say`Back to the shipped goals?`}
          what={say`Your ranges, chains and tolerances go. Export them first to keep them; this cannot be taken back.`}
          doIt={say`Back to the shipped goals`}
          onDo={() => void attempt(reset)}
          onClose={() => setAsking(null)}
        />
      ) : null}
      {asking === 'import' ? (
        <ConfirmDialog
          title={say`Take other goals?`}
          what={say`Those you choose take the place of yours in this book. Export yours first to keep them; this cannot be taken back.`}
          doIt={say`Choose a goals file`}
          onDo={() => void attempt(take)}
          onClose={() => setAsking(null)}
        />
      ) : null}
    </div>
  );
}
