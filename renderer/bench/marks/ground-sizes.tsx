import type { GroundLayout } from '../../../core/model/mark.ts';
import type { TypedPlace, TypedSize } from '../state/ground-plan.ts';
import styles from './ground-panel.module.css';
import { TextEntry } from '../../controls/fields.tsx';

const SIZE_LABELS: Readonly<Record<Exclude<GroundLayout, 'measured'>, readonly [string, string]>> = {
  mat: ['Width along the target line, cm', 'Depth toward the ball, cm'],
  sticks: ['Stick along the target line, cm', 'Stick across it, cm'],
};

/** The two lengths of a mat or of crossed sticks. */
export function SizeFields(props: {
  readonly layout: Exclude<GroundLayout, 'measured'>;
  readonly size: TypedSize;
  readonly onChange: (size: TypedSize) => void;
}) {
  const { layout, size, onChange } = props;
  const [along, across] = SIZE_LABELS[layout];
  return (
    <div className={styles.sizes}>
      <TextEntry label={along} value={size.along} onChange={(text) => onChange({ ...size, along: text })} />
      <TextEntry label={across} value={size.across} onChange={(text) => onChange({ ...size, across: text })} />
    </div>
  );
}

/** A row for each measured place: how far toward the target, how far toward the ball, from one place of the coach's choice. */
export function PlaceTable(props: {
  readonly rows: readonly TypedPlace[];
  readonly onChange: (rows: readonly TypedPlace[]) => void;
}) {
  const { rows, onChange } = props;
  const entry = (row: number, of: keyof TypedPlace, words: string) => (
    <td>
      <input
        className={styles.number}
        aria-label={`Place ${String(row + 1)}, cm ${words}`}
        value={rows[row]?.[of] ?? ''}
        onChange={({ target }) => onChange(rows.map((each, i) => (i === row ? { ...each, [of]: target.value } : each)))}
      />
    </td>
  );
  return (
    <table className={styles.places}>
      <thead>
        <tr>
          <th scope="col">Place</th>
          <th scope="col">cm toward the target</th>
          <th scope="col">cm toward the ball</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((_, row) => (
          // Rows have no other name than their place in the list.
          <tr key={`row ${String(row)}`}>
            <th scope="row">{row + 1}</th>
            {entry(row, 'target', 'toward the target')}
            {entry(row, 'ball', 'toward the ball')}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
