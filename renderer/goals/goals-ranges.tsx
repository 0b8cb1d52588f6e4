import { useRef, useState } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import { formatWanted, labelOf } from '../../core/measure/words/format.ts';
import { sourceSentence } from '../../core/measure/goals/goals-source.ts';
import { isWordsOnly } from '../../core/measure/goals/goals.ts';
import { withdrawnWords } from '../../core/measure/goals/withdrawn-goals.ts';
import type { WantedRange } from '../../core/model/goals.ts';
import { READING_IDS } from '../../core/model/reading.ts';
import type { ReadingId } from '../../core/model/reading.ts';
import { tellDone } from '../shell/state/messages.ts';
import { newRange, withInserted, without } from './state/goals-edit.ts';
import { changeGoals, changeRange, ownGoals } from './state/goals.ts';
import { AddByReading } from './goals-add.tsx';
import styles from './goals-page.module.css';
import lay from '../controls/lay.module.css';
import { RangeEditor } from './goals-range-editor.tsx';
import { whereInWords } from './goals-words.ts';
import { Button } from '../controls/button.tsx';

interface Placed {
  readonly range: WantedRange;
  /** In the goals' own list. */
  readonly index: number;
}

/** What is wanted, in groups by reading; one range at a time is open to be changed. */
export function GoalsRanges({ wanted }: { readonly wanted: readonly WantedRange[] }) {
  const [opened, setOpened] = useState<number | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const placed = wanted.map((range, index): Placed => ({ range, index }));
  const groups = [...READING_IDS, null]
    .map((reading) => ({ reading, entries: placed.filter(({ range }) => range.reading === reading) }))
    .filter(({ entries }) => entries.length > 0);
  const remove = ({ range, index }: Placed): void => {
    setOpened(null);
    heading.current?.focus();
    changeGoals({ wanted: without(wanted, index) });
    tellDone(say`${nameOf(range)} is taken out of your goals.`, {
      label: say`Put it back`,
      run: () => changeGoals({ wanted: withInserted(ownGoals.get().goals.wanted, index, range) }),
      waits: true,
    });
  };
  return (
    <section className={styles.part} aria-label={say`Goals for readings`}>
      <h3 ref={heading} tabIndex={-1}>{say`Goals for readings`}</h3>
      <p
        className={lay.soft}
      >{say`Where a reading should lie, and what a miss does to the strike, in your own words. Of several that hold for a swing, the one that names its club comes first.`}</p>
      <AddByReading
        what={say`Add a goal`}
        onAdd={(reading) => {
          changeGoals({ wanted: [...wanted, newRange(reading)] });
          setOpened(wanted.length);
        }}
      />
      {groups.map(({ reading, entries }) => (
        <section key={reading ?? 'none'} className={styles.group} aria-label={groupName(reading)}>
          <h4>{groupName(reading)}</h4>
          <ul>
            {entries.map((entry) => (
              <RangeRow
                key={entry.index}
                entry={entry}
                isOpen={opened === entry.index}
                onOpen={() => setOpened(opened === entry.index ? null : entry.index)}
                onChange={(part) => changeRange(entry.index, part)}
                onRemove={() => remove(entry)}
              />
            ))}
          </ul>
        </section>
      ))}
    </section>
  );
}

function groupName(reading: ReadingId | null): string {
  return reading === null ? say`Goals not measured yet` : labelOf({ id: reading, aspect: 'value' });
}

function nameOf({ reading, aspect }: WantedRange): string {
  return reading === null ? say`Not measured yet` : labelOf({ id: reading, aspect });
}

function RangeRow(props: {
  readonly entry: Placed;
  readonly isOpen: boolean;
  readonly onOpen: () => void;
  readonly onChange: (part: Partial<WantedRange>) => void;
  readonly onRemove: () => void;
}) {
  const { entry, isOpen, onOpen, onChange, onRemove } = props;
  const { range } = entry;
  const wanted = isWordsOnly(range) ? say`A remark, no limits` : say`Goal ${formatWanted(range)}`;
  const source = sourceSentence(range.basis);
  const withdrawn = withdrawnWords(range);
  const name = `${nameOf(range)}, ${lowered(whereInWords(range))}`;
  return (
    <li className={styles.row}>
      <div className={styles.said}>
        <p>
          <strong>{wanted}</strong>
          {range.aspect === 'change' ? say`, change from address` : ''}{' '}
          <span className={lay.soft}>{whereInWords(range)}</span>
        </p>
        {withdrawn === null ? null : <p role="note">{withdrawn}</p>}
        {range.words === '' ? null : <p>{range.words}</p>}
        {range.miss.low === '' ? null : (
          <p>
            <strong>{say`Too low.`}</strong> {range.miss.low}
          </p>
        )}
        {range.miss.high === '' ? null : (
          <p>
            <strong>{say`Too high.`}</strong> {range.miss.high}
          </p>
        )}
        {source === null ? null : <p className={lay.soft}>{source}</p>}
      </div>
      <div className={styles.actions}>
        <Button small expanded={isOpen} label={`${isOpen ? say`Close` : say`Change`} ${name}`} onPress={onOpen}>
          {isOpen ? say`Close` : say`Change`}
        </Button>
        <Button small label={say`Remove ${name}`} onPress={onRemove}>{say`Remove`}</Button>
      </div>
      {isOpen ? <RangeEditor range={range} onChange={onChange} /> : null}
    </li>
  );
}
