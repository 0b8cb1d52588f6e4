import { say } from '../../core/model/say.ts';
import type { BookSwing, StudentOverview } from '../../core/model/book.ts';
import { app } from '../shell/state/app-state.ts';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { chooseThen, openSwing } from '../swing/state/swing-actions.ts';
import { openComparison } from '../compare/state/comparing.ts';
import { gapBefore, viewGap } from './earlier-swings.ts';
import type { CompareGap, EarlierSwing } from './earlier-swings.ts';
import { Button } from '../controls/button.tsx';
import { Picker } from '../controls/fields.tsx';
import styles from './sheet-page.module.css';
import lay from '../controls/lay.module.css';

interface PickerProps {
  readonly swing: BookSwing;
  readonly students: readonly StudentOverview[];
  readonly earlier: readonly EarlierSwing[];
}

/** Chooses the swing of "then"; says what is missing while there is none to compare with, and leads there. */
export function ThenPicker({ swing, students, earlier }: PickerProps) {
  const then = useStore(app, (state) => state.then);
  if (earlier.length === 0) return swing.clips.length === 0 ? null : <Gap gap={gapBefore(swing, students)} />;
  const gap = then === null ? null : viewGap(swing, then);
  const latest = then === null ? earlier.find(({ sharesView }) => sharesView) : undefined;
  return (
    <>
      <div className={lay.row}>
        <Picker
          label={say`Compare with an earlier swing (then)`}
          value={then?.swing.id ?? ''}
          options={earlier}
          none={say`No comparison`}
          onChange={(id) => void attempt(() => chooseThen(id))}
        />
        {latest === undefined ? null : (
          <Button
            label={say`Compare with the last one: ${latest.label}`}
            onPress={() => void attempt(() => chooseThen(latest.value))}
          >{say`Compare with the last one`}</Button>
        )}
        {then === null || gap !== null ? null : (
          <Button onPress={() => openComparison()}>{say`See then and now`}</Button>
        )}
      </div>
      {gap === null ? null : <Gap gap={gap} />}
    </>
  );
}

function Gap({ gap: { sentence, leadsTo } }: { readonly gap: CompareGap }) {
  return (
    <div className={styles.gap}>
      <p className={lay.soft}>{sentence}</p>
      {leadsTo === null ? null : (
        <Button small onPress={() => void attempt(() => openSwing(leadsTo.swingId))}>
          {leadsTo.label}
        </Button>
      )}
    </div>
  );
}
