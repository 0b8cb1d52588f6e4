import { useState } from 'react';
import { changePattern, exportPattern, importPattern, ownPattern, resetPattern } from './state/pattern.ts';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { Button } from '../controls/button.tsx';
import { CheckedEntry } from '../controls/checked-entry.tsx';
import { ConfirmDialog } from '../controls/dialog.tsx';
import { TextEntry } from '../controls/fields.tsx';
import { PatternChains } from './pattern-chains.tsx';
import styles from './pattern-page.module.css';
import lay from '../controls/lay.module.css';
import { PatternRanges } from './pattern-ranges.tsx';
import { PatternTolerances } from './pattern-tolerances.tsx';
import { MOST_REMARK, readName } from './pattern-words.ts';

/** The coach's own pattern: what is wanted, what hangs together, what counts as no difference. Kept with every change. */
export function PatternPage() {
  const { pattern, shipped, trouble } = useStore(ownPattern, (state) => state);
  const [asking, setAsking] = useState<'reset' | 'import' | null>(null);
  // Another pattern has other entries in the same places: what was half typed goes with the one before.
  const [generation, setGeneration] = useState(0);
  const replaced = () => setGeneration((count) => count + 1);
  const take = async () => {
    if (await importPattern()) replaced();
  };
  const reset = async () => {
    await resetPattern();
    replaced();
  };
  return (
    <div className={styles.page}>
      <div className={styles.titleRow}>
        <h2>Pattern</h2>
        <span className={lay.soft}>{shipped ? 'The shipped one, not changed yet' : 'Your own, kept in this book'}</span>
        <Button onPress={() => (shipped ? void attempt(take) : setAsking('import'))}>Import</Button>
        <Button onPress={() => void attempt(exportPattern)}>Export</Button>
        <Button look="warning" disabled={shipped} onPress={() => setAsking('reset')}>
          Back to the shipped pattern
        </Button>
      </div>
      {trouble === null ? null : <p className={styles.trouble}>{trouble}</p>}
      <div key={generation} className={styles.parts}>
        <div className={styles.about}>
          <CheckedEntry
            label="Name"
            value={pattern.name}
            write={String}
            read={readName}
            onChange={(name) => changePattern({ name })}
          />
          <TextEntry
            label="What this list is"
            long
            value={pattern.about}
            maxLength={MOST_REMARK}
            onChange={(about) => changePattern({ about })}
          />
        </div>
        <PatternRanges wanted={pattern.wanted} />
        <PatternChains chains={pattern.chains} />
        <PatternTolerances tolerances={pattern.tolerances} />
      </div>
      {asking === 'reset' ? (
        <ConfirmDialog
          title="Back to the shipped pattern?"
          what="Your ranges, chains and tolerances go. Export them first to keep them; this cannot be taken back."
          doIt="Back to the shipped pattern"
          onDo={() => void attempt(reset)}
          onClose={() => setAsking(null)}
        />
      ) : null}
      {asking === 'import' ? (
        <ConfirmDialog
          title="Take another pattern?"
          what="The one you choose takes the place of yours in this book. Export yours first to keep it; this cannot be taken back."
          doIt="Choose a pattern file"
          onDo={() => void attempt(take)}
          onClose={() => setAsking(null)}
        />
      ) : null}
    </div>
  );
}
