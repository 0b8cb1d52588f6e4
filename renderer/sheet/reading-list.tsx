import { say } from '../../core/model/say.ts';
import type { CellSide } from '../../core/report/cell.ts';
import { leftOutWords, linesOf } from '../../core/report/lines.ts';
import lay from '../controls/lay.module.css';
import { ReadingWords } from './reading-words.tsx';
import styles from './reading-list.module.css';

/** The readings of one cell of the sheet, in short; at the end what does not stand there. */
export function ReadingList({ side }: { readonly side: CellSide }) {
  const leftOut = leftOutWords(side);
  if (side.readings.length === 0 && leftOut === null)
    return <p className={lay.soft}>{say`No reading yet. Open the still and place points.`}</p>;
  return (
    <>
      <dl className={styles.list}>
        {linesOf(side).map((line) => (
          <div key={`${line.key.id} ${line.key.aspect}`} className={styles.item}>
            <dt>{line.label}</dt>
            <dd>
              <ReadingWords line={line} />
            </dd>
          </div>
        ))}
      </dl>
      {leftOut === null ? null : <p className={lay.soft}>{leftOut}</p>}
    </>
  );
}
