import type { CellSide } from '../../core/report/cell.ts';
import { leftOutWords, linesOf, type ShownLine } from '../../core/report/lines.ts';
import { verdictWithReason, type ShownComparison } from '../../core/report/shown-reading.ts';
import styles from './reading-list.module.css';
import lay from '../controls/lay.module.css';

/** The readings of one cell of the sheet, in short, and against then the differences; at the end what does not stand there. */
export function ReadingList(props: { readonly side: CellSide; readonly withDifference: boolean }) {
  const { side, withDifference } = props;
  const leftOut = leftOutWords(side);
  if (side.readings.length === 0 && leftOut === null)
    return <p className={lay.soft}>No reading yet. Open the still and place points.</p>;
  return (
    <>
      <dl className={styles.list}>
        {linesOf(side).map((line) => (
          <Line key={`${line.key.id} ${line.key.aspect}`} line={line} differs={withDifference ? line.differs : []} />
        ))}
      </dl>
      {leftOut === null ? null : <p className={lay.soft}>{leftOut}</p>}
    </>
  );
}

function Line({ line, differs }: { readonly line: ShownLine; readonly differs: readonly ShownComparison[] }) {
  return (
    <div className={styles.item}>
      <dt>{line.label}</dt>
      <dd>
        <strong>{line.number}</strong>
        {line.meaning === null ? null : <span className={lay.soft}> {line.meaning}</span>}
        {line.change === null ? null : <span className={styles.difference}>{line.change}</span>}
        {line.questions.map((question) => (
          <strong key={question} className={styles.question}>
            {question}
          </strong>
        ))}
        {differs.map((shown) => (
          <span key={shown.label} className={styles.difference} data-verdict={shown.comparison.verdict}>
            {shown.label === line.label ? 'Differs' : 'Change differs'} {shown.difference}:{' '}
            <span title={shown.meaning} className={styles.verdict}>
              {verdictWithReason(shown)}
            </span>
          </span>
        ))}
      </dd>
    </div>
  );
}
