import { say } from '../../core/model/say.ts';
import { MOST_KEY_THOUGHTS } from '../../core/model/lesson-page.ts';
import { TextEntry } from '../controls/fields.tsx';
import { setKeyThought } from './state/page-actions.ts';
import styles from './lesson-page.module.css';

const MOST_WORDS = 1000;

/** At most three, each one line. */
export function KeyThoughts({ thoughts }: { readonly thoughts: readonly string[] }) {
  return (
    <section className={styles.part} aria-label={say`Key thoughts`}>
      <h3>{say`Key thoughts`}</h3>
      {Array.from({ length: MOST_KEY_THOUGHTS }, (_, index) => (
        <TextEntry
          key={index}
          label={say`Key thought ${String(index + 1)}`}
          value={thoughts[index] ?? ''}
          maxLength={MOST_WORDS}
          onChange={(words) => setKeyThought(index, words)}
        />
      ))}
    </section>
  );
}
