import { useMemo } from 'react';
import { say } from '../../core/model/say.ts';
import type { LessonReport } from '../../core/report/lesson-report.ts';
import { whatChanged } from '../../core/report/what-changed.ts';
import { Button } from '../controls/button.tsx';
import styles from './comparison-page.module.css';
import { openComparison } from './state/comparing.ts';

/** What changed, the clearest first, at most three; a press goes to where it is seen. */
export function SentencesOfChange({ report }: { readonly report: LessonReport }) {
  const told = useMemo(() => whatChanged(report), [report]);
  if (told === null) return <p className={styles.sentences}>{say`Nothing is read in both swings yet.`}</p>;
  return (
    <ul className={styles.sentences} aria-label={say`What changed`}>
      {told.sentences.map(({ key, words }) => (
        <li key={words}>
          {key === null ? (
            words
          ) : (
            <Button look="quiet" onPress={() => openComparison(key.view, key.checkpoint)}>
              {words}
            </Button>
          )}
        </li>
      ))}
    </ul>
  );
}
