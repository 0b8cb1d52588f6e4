import type { ShownLine } from '../../core/report/lines.ts';
import lay from '../controls/lay.module.css';
import styles from './reading-list.module.css';

/** A number with what it means, how far it went since address, and what the coach is asked of it. */
export function ReadingWords({ line }: { readonly line: ShownLine }) {
  return (
    <>
      <strong>{line.number}</strong>
      {line.meaning === null ? null : <span className={lay.soft}> {line.meaning}</span>}
      {line.change === null ? null : <span className={styles.change}>{line.change}</span>}
      {line.questions.map((question) => (
        <strong key={question} className={styles.question}>
          {question}
        </strong>
      ))}
    </>
  );
}
