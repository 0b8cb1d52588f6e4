import { say } from '../../core/model/say.ts';
import type { ReportCell } from '../../core/report/cell.ts';
import { leftOutWords, pairedLines, type PairedLine, type ShownLine } from '../../core/report/lines.ts';
import { verdictWithReason, type ShownComparison } from '../../core/report/shown-reading.ts';
import lay from '../controls/lay.module.css';
import { ReadingWords } from './reading-words.tsx';
import styles from './paired-readings.module.css';

/** Below both pictures of a checkpoint: each reading once, then under then and now under now, in one row. */
export function PairedReadings({ cell, label }: { readonly cell: ReportCell; readonly label: string }) {
  const rows = pairedLines(cell);
  const leftOut = leftOutWords(cell.now);
  return (
    <div className={styles.paired}>
      {rows.length === 0 ? null : (
        <table className={styles.table} aria-label={label}>
          <thead>
            <tr>
              <th scope="col">{say`Reading`}</th>
              <th scope="col">{say`Then`}</th>
              <th scope="col">{say`Now`}</th>
              <th scope="col">{say`Difference`}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <Row key={`${row.label} ${row.now === null ? 'then' : 'now'}`} row={row} />
            ))}
          </tbody>
        </table>
      )}
      {rows.length === 0 && leftOut === null ? (
        <p className={lay.soft}>{say`No reading yet. Open the still and place points.`}</p>
      ) : null}
      {leftOut === null ? null : <p className={lay.soft}>{leftOut}</p>}
    </div>
  );
}

function Row({ row }: { readonly row: PairedLine }) {
  return (
    <tr>
      <th scope="row">{row.label}</th>
      <Side line={row.then} />
      <Side line={row.now} />
      <td>
        {row.now?.differs.map((shown) => (
          <Difference key={shown.label} shown={shown} isOfValue={shown.label === row.label} />
        ))}
      </td>
    </tr>
  );
}

function Side({ line }: { readonly line: ShownLine | null }) {
  return <td>{line === null ? <span className={lay.soft}>{say`not read`}</span> : <ReadingWords line={line} />}</td>;
}

/** E.g. "−14° ± 3°: changed"; of a change since address, that it is one. */
function Difference({ shown, isOfValue }: { readonly shown: ShownComparison; readonly isOfValue: boolean }) {
  return (
    <span className={styles.difference} data-verdict={shown.comparison.verdict}>
      {isOfValue ? '' : say`Change since address `}
      {shown.difference}:{' '}
      <span title={shown.meaning} className={styles.verdict}>
        {verdictWithReason(shown)}
      </span>
    </span>
  );
}
