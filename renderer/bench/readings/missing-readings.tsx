import type { MeasuredReading, MissingReading, ReadingKey } from '../../../core/model/reading.ts';
import { idleWords, labelOf, missingWords } from '../../../core/measure/words/format.ts';
import { questionOf } from '../../../core/measure/doubts/plausible.ts';
import { PinToggle } from './pin-toggle.tsx';
import styles from './readings-panel.module.css';

/** What else can be read at a checkpoint, and what to place or name for it. */
export function MissingReadings(props: {
  readonly readings: readonly MissingReading[];
  readonly open: boolean;
  readonly isPinned: (key: ReadingKey) => boolean;
}) {
  const { readings, open, isPinned } = props;
  return (
    <details className={styles.missing} open={open}>
      <summary>{readings.length === 1 ? '1 more can be read' : `${String(readings.length)} more can be read`}</summary>
      <ul>
        {readings.map((reading) => (
          <li key={`${reading.id} ${reading.aspect}`}>
            {labelOf(reading)}
            <span>{missingWords(reading)}</span>
            {isPinned(reading) ? <PinToggle reading={reading} pin="pinned" /> : null}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Readings whose number is worth nothing, why, and what to do. What also cannot be right is asked about, unfolded. */
export function IdleReadings({ readings }: { readonly readings: readonly MeasuredReading[] }) {
  if (readings.length === 0) return null;
  return (
    <details className={styles.missing} open={readings.some((reading) => questionOf(reading) !== null)}>
      <summary>
        {readings.length === 1 ? '1 that tells nothing here' : `${String(readings.length)} that tell nothing here`}
      </summary>
      <ul>
        {readings.map((reading) => (
          <li key={`${reading.id} ${reading.aspect}`}>
            {labelOf(reading)}
            <span>{questionOf(reading) ?? idleWords(reading)}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}
