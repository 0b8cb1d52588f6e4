import { say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import { shownUnit } from '../../../core/measure/words/shown-units.ts';
import type { GroundLayout } from '../../../core/model/mark.ts';
import type { TypedPlace, TypedSize } from '../state/ground-plan.ts';
import styles from './ground-panel.module.css';
import { TextEntry } from '../../controls/fields.tsx';

/** With the unit behind them. */
const SIZE_LABELS: Readonly<Record<Exclude<GroundLayout, 'measured'>, readonly [string, string]>> = {
  mat: [say`Width along the target line`, say`Depth toward the ball`],
  sticks: [say`Stick along the target line`, say`Stick across it`],
};

/** The two lengths of a mat or of crossed sticks. */
export function SizeFields(props: {
  readonly layout: Exclude<GroundLayout, 'measured'>;
  readonly size: TypedSize;
  readonly onChange: (size: TypedSize) => void;
}) {
  const { layout, size, onChange } = props;
  const [along, across] = SIZE_LABELS[layout];
  const unit = shownUnit('cm');
  return (
    <div className={styles.sizes}>
      <TextEntry
        label={`${along}, ${unit}`}
        value={size.along}
        onChange={(text) => onChange({ ...size, along: text })}
      />
      <TextEntry
        label={`${across}, ${unit}`}
        value={size.across}
        onChange={(text) => onChange({ ...size, across: text })}
      />
    </div>
  );
}

/** A row for each measured place: how far toward the target, how far toward the ball, from one place of the coach's choice. */
export function PlaceTable(props: {
  readonly rows: readonly TypedPlace[];
  readonly onChange: (rows: readonly TypedPlace[]) => void;
}) {
  const { rows, onChange } = props;
  const unit = shownUnit('cm');
  const entry = (row: number, of: keyof TypedPlace, words: string) => (
    <td>
      <input
        className={styles.number}
        aria-label={say`Place ${String(row + 1)}, ${unit} ${words}`}
        value={rows[row]?.[of] ?? ''}
        onChange={({ target }) => onChange(rows.map((each, i) => (i === row ? { ...each, [of]: target.value } : each)))}
      />
    </td>
  );
  return (
    <table className={styles.places}>
      <thead>
        <tr>
          <th scope="col">{say`Place`}</th>
          <th scope="col">{said`${unit} toward the target`}</th>
          <th scope="col">{said`${unit} toward the ball`}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((_, row) => (
          // Rows have no other name than their place in the list.
          <tr key={`row ${String(row)}`}>
            <th scope="row">{row + 1}</th>
            {entry(row, 'target', say`toward the target`)}
            {entry(row, 'ball', say`toward the ball`)}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
