import { useEffect, useRef } from 'react';
import { say } from '../../core/model/say.ts';
import { CATALOGUE } from '../../core/measure/catalogue/catalogue.ts';
import { checkpointsOf, viewsOf } from '../../core/measure/catalogue/where-read.ts';
import type { WantedRange } from '../../core/model/goals.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import { withToggled } from './state/goals-edit.ts';
import { RangeLimits } from './goals-range-limits.tsx';
import { ASPECT_LABELS, MOST_REMARK, readClubs, writeClubs } from './goals-words.ts';
import { CheckedEntry } from '../controls/checked-entry.tsx';
import { Check, Choice, TextEntry } from '../controls/fields.tsx';
import styles from './goals-page.module.css';

/** All of one wanted range; what is sound is kept at once. */
export function RangeEditor(props: {
  readonly range: WantedRange;
  readonly onChange: (part: Partial<WantedRange>) => void;
}) {
  const { range, onChange: change } = props;
  const entry = range.reading === null ? null : CATALOGUE[range.reading];
  const aspects = entry?.aspects ?? [];
  // What is named stays in sight, also where the reading is no longer made.
  const isOffered =
    <T,>(made: readonly T[], named: readonly T[]) =>
    (each: T) =>
      made.includes(each) || named.includes(each);
  const { reading } = range;
  const views = reading === null ? VIEWS : VIEWS.filter(isOffered(viewsOf(reading), range.views));
  const checkpoints =
    reading === null ? CHECKPOINTS : CHECKPOINTS.filter(isOffered(checkpointsOf(reading), range.checkpoints));
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    ref.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <div ref={ref} className={styles.editor} role="group" aria-label={say`Change this range`}>
      <RangeLimits range={range} onChange={change}>
        <CheckedEntry
          label={say`Clubs (none: every club)`}
          value={range.clubs}
          write={writeClubs}
          read={readClubs}
          onChange={(clubs) => change({ clubs })}
        />
      </RangeLimits>
      {aspects.length < 2 ? null : (
        <Choice
          label={say`Of the reading`}
          value={range.aspect}
          options={aspects.map((value) => ({ value, label: ASPECT_LABELS[value] }))}
          onChange={(aspect) => change({ aspect })}
        />
      )}
      <fieldset className={styles.checks}>
        <legend>{say`Checkpoints (none: wherever it is read)`}</legend>
        {checkpoints.map((checkpoint) => (
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
          <legend>{say`Views (none: both)`}</legend>
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
      <Remark label={say`In words`} value={range.words} onChange={(words) => change({ words })} />
      <Remark
        label={say`Too low: what it does to the strike`}
        value={range.miss.low}
        onChange={(low) => change({ miss: { ...range.miss, low } })}
      />
      <Remark
        label={say`Too high: what it does to the strike`}
        value={range.miss.high}
        onChange={(high) => change({ miss: { ...range.miss, high } })}
      />
      <Remark label={say`Where this is from`} value={range.basis} onChange={(basis) => change({ basis })} />
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
