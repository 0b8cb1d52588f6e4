import { useMemo } from 'react';
import type { ReactNode } from 'react';
import type { BookClip } from '../../../core/model/book.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { app } from '../../shell/state/app-state.ts';
import { companion, companionClip } from '../state/companion.ts';
import { useStore } from '../../shell/state/store.ts';
import { CompanionView } from './companion-view.tsx';
import styles from './companion.module.css';

/** The frame on the bench, and beside it the companion where one was chosen and is there. */
export function Stages(props: { readonly clip: BookClip; readonly index: ClipIndex; readonly children: ReactNode }) {
  const { clip, index } = props;
  const choice = useStore(companion, (state) => state.choice);
  const beside = useStore(app, (state) => companionClip(state, choice));
  const table = useStore(app, (state) => (beside === null ? undefined : state.indexes[beside.id]));
  const main = useMemo(() => ({ clip, index }), [clip, index]);
  const other = useMemo(
    () => (beside === null || table === undefined ? null : { clip: beside, index: table }),
    [beside, table],
  );
  return (
    <div className={styles.stages} data-both={other !== null}>
      {props.children}
      {other === null || choice === 'none' ? null : (
        <CompanionView key={other.clip.id} main={main} other={other} choice={choice} />
      )}
    </div>
  );
}
