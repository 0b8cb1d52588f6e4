import { say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import type { ReadingKey } from '../../../core/model/reading.ts';
import { labelOf } from '../../../core/measure/words/format.ts';
import type { PinState } from '../../../core/report/cell.ts';
import { setPinned } from '../../swing/state/edit-actions.ts';
import styles from './readings-panel.module.css';

/** Chooses a reading for the still and the sheet. Where none of a cell is chosen, all stand there. */
export function PinToggle({ reading, pin }: { readonly reading: ReadingKey; readonly pin: PinState }) {
  if (pin === 'with its value') return <span className={styles.along}>{say`On the still with its value`}</span>;
  const pinned = pin === 'pinned';
  return (
    <button
      type="button"
      className={styles.pin}
      aria-pressed={pinned}
      aria-label={say`Put on the still: ${labelOf(reading)}`}
      onClick={() => setPinned(reading, !pinned)}
    >{said`${(
      <span className={styles.box} aria-hidden="true">
        {pinned ? '✓' : ''}
      </span>
    )}Put on the still`}</button>
  );
}
