import type { ReactNode } from 'react';
import { say } from '../../core/model/say.ts';
import type { WantedRange } from '../../core/model/goals.ts';
import { UNITS } from '../../core/model/reading.ts';
import { readLimit, unitOptions, writeLimit } from './goals-words.ts';
import { CheckedEntry } from '../controls/checked-entry.tsx';
import { Picker } from '../controls/fields.tsx';
import styles from './goals-page.module.css';

/** The limits of a wanted range with their unit, and what else a place puts beside them. */
export function RangeLimits(props: {
  readonly range: WantedRange;
  readonly onChange: (part: Partial<WantedRange>) => void;
  readonly children?: ReactNode;
}) {
  const { range, onChange } = props;
  return (
    <div className={styles.limits}>
      <CheckedEntry
        label={say`From`}
        numeric
        value={range.from}
        write={(value) => writeLimit(value, range.unit)}
        read={(text) => readLimit(text, 'from', range.to, range.unit)}
        onChange={(from) => onChange({ from })}
      />
      <CheckedEntry
        label={say`To`}
        numeric
        value={range.to}
        write={(value) => writeLimit(value, range.unit)}
        read={(text) => readLimit(text, 'to', range.from, range.unit)}
        onChange={(to) => onChange({ to })}
      />
      <Picker
        label={say`Unit`}
        value={range.unit}
        options={unitOptions(range.reading, range.unit)}
        onChange={(unit) => onChange({ unit: unit ?? UNITS[0] })}
      />
      {props.children}
    </div>
  );
}
