import type { Comparison, MeasuredReading, Reading } from '../../core/model/reading.ts';
import { formatDifference, formatReading, meaningOf, VERDICT_MEANINGS } from '../../core/measure/format.ts';
import { sameReading, shortLabel } from './measured-swing.ts';
import styles from './readings.module.css';

/** The readings of one cell of the sheet, in short: name, number with its ±, and against then the difference. */
export function ReadingList(props: {
  readonly readings: readonly Reading[];
  readonly comparisons: readonly Comparison[];
}) {
  const measured = props.readings.filter((reading) => reading.state === 'measured');
  if (measured.length === 0) return <p className={styles.none}>No reading yet. Open the still and place points.</p>;
  return (
    <dl className={styles.list}>
      {measured.map((reading) => (
        <ListedReading
          key={`${reading.id} ${reading.aspect}`}
          reading={reading}
          comparison={props.comparisons.find((entry) => sameReading(entry, reading))}
        />
      ))}
    </dl>
  );
}

function ListedReading(props: { readonly reading: MeasuredReading; readonly comparison: Comparison | undefined }) {
  const { reading, comparison } = props;
  const meaning = meaningOf(reading);
  return (
    <div className={styles.item}>
      <dt>{shortLabel(reading)}</dt>
      <dd>
        <strong>{formatReading(reading).text}</strong>
        {meaning === null ? null : <span className={styles.soft}> {meaning}</span>}
        {comparison === undefined ? null : <DifferenceLine comparison={comparison} />}
      </dd>
    </div>
  );
}

/** now - then with its verdict. The sign before the words tells the verdict without colour. */
export function DifferenceLine({ comparison }: { readonly comparison: Comparison }) {
  return (
    <span className={styles.difference} data-verdict={comparison.verdict}>
      {formatDifference(comparison).text}:{' '}
      <span title={VERDICT_MEANINGS[comparison.verdict]} className={styles.verdict}>
        {comparison.verdict}
      </span>
    </span>
  );
}
