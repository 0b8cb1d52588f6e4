import { say } from '../../core/model/say.ts';
import { BODIES, CONSENT, DISTANCE, PAIN } from '../../core/measure/words/cautions.ts';
import styles from './cautions.module.css';

/** Where a coach begins the usual cautions stand open; Help has them at any time. */
export function Cautions() {
  return (
    <aside className={styles.cautions} aria-label={say`Before a lesson`}>
      <h3>{say`Before a lesson`}</h3>
      <CautionList />
    </aside>
  );
}

export function CautionList() {
  return (
    <ul>
      {[CONSENT, DISTANCE, PAIN, BODIES].map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  );
}
