import { useEffect, useRef } from 'react';
import { CATALOGUE } from '../../core/measure/catalogue.ts';
import { UNITS } from '../../core/model/reading.ts';
import type { WantedRange } from '../../core/model/pattern.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import { withToggled } from '../state/pattern-edit.ts';
import {
  ASPECT_LABELS,
  MOST_REMARK,
  readClubs,
  readLimit,
  unitOptions,
  writeClubs,
  writeLimit,
} from './pattern-words.ts';
import { CheckedEntry } from './parts/checked-entry.tsx';
import { Check, Choice, Picker, TextEntry } from './parts/fields.tsx';
import styles from './pattern-page.module.css';

/** All of one wanted range; what is sound is kept at once. */
export function RangeEditor(props: { readonly range: WantedRange; readonly onChange: (range: WantedRange) => void }) {
  const { range } = props;
  const change = (part: Partial<WantedRange>): void => props.onChange({ ...range, ...part });
  const entry = range.reading === null ? null : CATALOGUE[range.reading];
  const [aspects, views] = [entry?.aspects ?? [], entry?.views ?? VIEWS];
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    ref.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <div ref={ref} className={styles.editor} role="group" aria-label="Change this range">
      <div className={styles.limits}>
        <CheckedEntry
          label="From"
          numeric
          value={range.from}
          write={writeLimit}
          read={(text) => readLimit(text, 'from', range.to)}
          onChange={(from) => change({ from })}
        />
        <CheckedEntry
          label="To"
          numeric
          value={range.to}
          write={writeLimit}
          read={(text) => readLimit(text, 'to', range.from)}
          onChange={(to) => change({ to })}
        />
        <Picker
          label="Unit"
          value={range.unit}
          options={unitOptions(range.reading, range.unit)}
          onChange={(unit) => change({ unit: unit ?? UNITS[0] })}
        />
        <CheckedEntry
          label="Clubs (none: every club)"
          value={range.clubs}
          write={writeClubs}
          read={readClubs}
          onChange={(clubs) => change({ clubs })}
        />
      </div>
      {aspects.length < 2 ? null : (
        <Choice
          label="Of the reading"
          value={range.aspect}
          options={aspects.map((value) => ({ value, label: ASPECT_LABELS[value] }))}
          onChange={(aspect) => change({ aspect })}
        />
      )}
      <fieldset className={styles.checks}>
        <legend>Checkpoints (none: wherever it is read)</legend>
        {(entry?.checkpoints ?? CHECKPOINTS).map((checkpoint) => (
          <Check
            key={checkpoint}
            checked={range.checkpoints.includes(checkpoint)}
            onChange={() => change({ checkpoints: withToggled(range.checkpoints, checkpoint, CHECKPOINTS) })}
          >
            {CHECKPOINT_LABELS[checkpoint]}
          </Check>
        ))}
      </fieldset>
      {views.length < 2 ? null : (
        <fieldset className={styles.checks}>
          <legend>Views (none: both)</legend>
          {views.map((view) => (
            <Check
              key={view}
              checked={range.views.includes(view)}
              onChange={() => change({ views: withToggled(range.views, view, VIEWS) })}
            >
              {VIEW_LABELS[view]}
            </Check>
          ))}
        </fieldset>
      )}
      <Remark label="In words" value={range.words} onChange={(words) => change({ words })} />
      <Remark
        label="Missed low: what it does to the strike"
        value={range.miss.low}
        onChange={(low) => change({ miss: { ...range.miss, low } })}
      />
      <Remark
        label="Missed high: what it does to the strike"
        value={range.miss.high}
        onChange={(high) => change({ miss: { ...range.miss, high } })}
      />
      <Remark label="Where this is from" value={range.basis} onChange={(basis) => change({ basis })} />
    </div>
  );
}

export function Remark(props: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}) {
  return <TextEntry {...props} maxLength={MOST_REMARK} />;
}
