import type { Comparison, MeasuredReading } from '../../core/model/reading.ts';
import type { Figures } from '../../core/measure/words/figures.ts';
import { labelOf, VERDICT_MEANINGS } from '../../core/measure/words/format.ts';
import { sameReading } from '../../core/model/reading.ts';
import styles from './reading-list.module.css';

/**
 * The readings of one cell of the sheet, in short: name, number with its ±, and against then the difference. Where some
 * were chosen for the still, these alone, and how many were left out.
 */
export function ReadingList(props: {
  readonly readings: readonly MeasuredReading[];
  readonly leftOut: number;
  readonly comparisons: readonly Comparison[];
  readonly figures: Figures;
}) {
  const { readings: measured, leftOut, figures } = props;
  const values = measured.filter((reading) => reading.aspect === 'value');
  const changes = measured.filter((reading) => reading.aspect === 'change');
  // A change stands beside its value; one that has none stands for itself.
  const alone = changes.filter((change) => values.every((value) => value.id !== change.id));
  if (measured.length === 0 && leftOut === 0)
    return <p className={styles.none}>No reading yet. Open the still and place points.</p>;
  return (
    <>
      <dl className={styles.list}>
        {[...values, ...alone].map((reading) => (
          <ListedReading
            key={`${reading.id} ${reading.aspect}`}
            reading={reading}
            figures={figures}
            change={reading.aspect === 'value' ? changes.find((change) => change.id === reading.id) : undefined}
            comparison={props.comparisons.find((entry) => sameReading(entry, reading))}
          />
        ))}
      </dl>
      {leftOut === 0 ? null : (
        <p className={styles.none}>{leftOut === 1 ? '1 more is' : `${String(leftOut)} more are`} not on the still.</p>
      )}
    </>
  );
}

function ListedReading(props: {
  readonly reading: MeasuredReading;
  readonly change: MeasuredReading | undefined;
  readonly comparison: Comparison | undefined;
  readonly figures: Figures;
}) {
  const { reading, change, comparison, figures } = props;
  const meaning = figures.meaning(reading);
  return (
    <div className={styles.item}>
      <dt>{labelOf(reading)}</dt>
      <dd>
        <strong>{figures.reading(reading).text}</strong>
        {meaning === null ? null : <span className={styles.soft}> {meaning}</span>}
        {change === undefined ? null : (
          <span className={styles.difference}>{figures.reading(change).text} from address</span>
        )}
        {comparison === undefined ? null : <DifferenceLine comparison={comparison} figures={figures} />}
      </dd>
    </div>
  );
}

/** now - then with its verdict in words. */
function DifferenceLine({ comparison, figures }: { readonly comparison: Comparison; readonly figures: Figures }) {
  return (
    <span className={styles.difference} data-verdict={comparison.verdict}>
      Differs {figures.comparison(comparison).difference.text}:{' '}
      <span title={VERDICT_MEANINGS[comparison.verdict]} className={styles.verdict}>
        {comparison.verdict}
      </span>
    </span>
  );
}
