import { useEffect, useRef, useState } from 'react';
import { say } from '../../../core/model/say.ts';
import { fullLabelOf, labelOf, otherUnitWords } from '../../../core/measure/words/format.ts';
import type { MeasuredReading } from '../../../core/model/reading.ts';
import type { WantedRange } from '../../../core/model/goals.ts';
import { tellDone } from '../../shell/state/messages.ts';
import { newRangeFor } from '../../goals/state/goals-edit.ts';
import { changeGoals, ownGoals } from '../../goals/state/goals.ts';
import { beginRangeEdit } from '../../goals/state/range-edit.ts';
import type { RangeEdit } from '../../goals/state/range-edit.ts';
import { Button } from '../../controls/button.tsx';
import { RangeLimits } from '../../goals/goals-range-limits.tsx';
import { whereInWords } from '../../goals/goals-words.ts';
import styles from './reading-in-full.module.css';
import { useSmallestChange } from './use-smallest-change.ts';
import type { Wanted } from './wanted-of-reading.ts';

/** The wanted range of an opened reading, to be changed or said right there. */
export function WantedHere({ reading, wanted }: { readonly reading: MeasuredReading; readonly wanted: Wanted | null }) {
  const [isOpen, setOpen] = useState(false);
  const ref = useRef<HTMLDivElement>(null);
  const label = labelOf(reading);
  const close = (): void => {
    setOpen(false);
    ref.current?.querySelector('button')?.focus();
  };
  const asks = wanted === null ? say`Add a goal` : say`Change the goal`;
  return (
    <div ref={ref} className={styles.wanted}>
      <Button
        small
        expanded={isOpen}
        label={isOpen ? say`Close the goal for ${label}` : say`${asks} for ${label}`}
        onPress={() => (isOpen ? close() : setOpen(true))}
      >
        {isOpen ? say`Close` : asks}
      </Button>
      {isOpen ? <LimitsHere reading={reading} wanted={wanted} onClose={close} /> : null}
    </div>
  );
}

function LimitsHere(props: {
  readonly reading: MeasuredReading;
  readonly wanted: Wanted | null;
  readonly onClose: () => void;
}) {
  const { reading, wanted, onClose } = props;
  const smallest = useSmallestChange(reading);
  const [fresh] = useState(() => newRangeFor(reading));
  const [edit] = useState(() => editOf(wanted?.range ?? null, fresh, labelOf(reading)));
  const range = wanted?.range ?? fresh;
  const ref = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const first = ref.current?.querySelector('input');
    first?.focus();
    first?.select();
    ref.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  // Also where another reading is opened, or the bench is left.
  useEffect(() => () => edit.end(), [edit]);
  return (
    <div
      ref={ref}
      className={styles.limits}
      role="group"
      aria-label={say`Goal for ${fullLabelOf(reading)}`}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        onClose();
      }}
    >
      <RangeLimits range={range} onChange={edit.change} />
      <p>{whereInWords(range)}.</p>
      {range.unit === reading.unit ? null : <p>{otherUnitWords(range)}</p>}
      {smallest === null ? null : <p>{smallest}</p>}
      <p>{say`Counts at once. Change where it holds, and its words, on the Goals page.`}</p>
    </div>
  );
}

/** An edit of the book's goals; what it did can be taken back from the message that follows. */
function editOf(held: WantedRange | null, fresh: WantedRange, label: string): RangeEdit {
  return beginRangeEdit(held, fresh, {
    goals: () => ownGoals.get().goals,
    shippedGoals: () => ownGoals.get().shippedGoals,
    put: (wanted) => changeGoals({ wanted }),
    offer: (kind, takeBack) =>
      kind === 'added'
        ? tellDone(say`Goal added for ${label}.`, {
            label: say`Take it out`,
            run: takeBack,
            waits: true,
          })
        : tellDone(say`Goal changed for ${label}.`, { label: say`Put it back`, run: takeBack, waits: true }),
    refuse: () =>
      tellDone(say`The goal for ${label} was changed again since, so it stays. Change it on the Goals page.`),
  });
}
