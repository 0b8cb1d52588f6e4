import { useRef } from 'react';
import { say } from '../../core/model/say.ts';
import { TERMS } from '../../core/measure/words/glossary.ts';
import { labelOf, typedIn, unitInWords } from '../../core/measure/words/format.ts';
import { usualSmallestWords } from '../../core/report/verdict-worth.ts';
import type { Tolerance } from '../../core/model/goals.ts';
import { newTolerance, withEntry, without } from './state/goals-edit.ts';
import { changeGoals } from './state/goals.ts';
import { AddByReading } from './goals-add.tsx';
import styles from './goals-page.module.css';
import lay from '../controls/lay.module.css';
import { READING_OPTIONS, readTolerance } from './goals-words.ts';
import { Button } from '../controls/button.tsx';
import { CheckedEntry } from '../controls/checked-entry.tsx';

/** What change of a reading shows as a rule: a tolerance below that can hardly be told. */
function Smallest({ of: { reading, aspect, unit } }: { readonly of: Tolerance }) {
  const words = usualSmallestWords(reading, aspect, unit);
  return words === null ? null : <span className={styles.smallest}>{words}</span>;
}

/** Differences between then and now that count as none. */
export function GoalsTolerances({ tolerances }: { readonly tolerances: readonly Tolerance[] }) {
  const heading = useRef<HTMLHeadingElement>(null);
  const free = READING_OPTIONS.filter(({ value }) => newTolerance(value, tolerances) !== null);
  return (
    <section className={styles.part} aria-label={say`Tolerances`}>
      <h3 ref={heading} tabIndex={-1} title={TERMS.tolerance.means}>{say`Tolerances`}</h3>
      <p
        className={lay.soft}
      >{say`A difference between then and now that is smaller than this, with 95 % of what it may be, counts as none: the verdict is “no change”. Without a tolerance that is never said.`}</p>
      <AddByReading
        what={say`Add a tolerance`}
        options={free}
        onAdd={(reading) => {
          const added = newTolerance(reading, tolerances);
          if (added !== null) changeGoals({ tolerances: [...tolerances, added] });
        }}
      />
      <ul className={styles.tolerances}>
        {tolerances.map((tolerance, index) => {
          const { reading, aspect, unit, within } = tolerance;
          const name = labelOf({ id: reading, aspect });
          return (
            <li key={`${reading} ${aspect} ${unit}`}>
              <span className={styles.name}>
                {name}
                <Smallest of={tolerance} />
              </span>
              <CheckedEntry
                label={say`Tolerance of ${name}, in ${unitInWords(unit)}`}
                quietLabel
                numeric
                value={within}
                write={(value) => typedIn(value, unit)}
                read={(text) => readTolerance(text, unit)}
                onChange={(changed) =>
                  changeGoals({ tolerances: withEntry(tolerances, index, { ...tolerance, within: changed }) })
                }
              />
              <span>{unitInWords(unit)}</span>
              <Button
                small
                label={say`Remove the tolerance of ${name}, in ${unitInWords(unit)}`}
                onPress={() => {
                  heading.current?.focus();
                  changeGoals({ tolerances: without(tolerances, index) });
                }}
              >{say`Remove`}</Button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
