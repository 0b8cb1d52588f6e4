import { useEffect, useState } from 'react';
import { inListOrder, learntInWords } from '../../core/measure/proposed/learnt-words.ts';
import { LEAST_LESSONS, MOST_LESSONS } from '../../core/measure/proposed/learn-errors.ts';
import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import { say } from '../../core/model/say.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import { Button } from '../controls/button.tsx';
import { ConfirmDialog } from '../controls/dialog.tsx';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { forgetCorrections, learning, readCorrections } from './state/corrections.ts';
import type { Learning } from './state/corrections.ts';
import styles from './repeat-page.module.css';
import lay from '../controls/lay.module.css';

/** How far proposed points lie off, per point and view: assumed, or learnt from where the coach put them. */
export function LearntErrors() {
  const read = useStore(learning, (state) => state.read);
  const [asks, setAsks] = useState(false);
  useEffect(() => void attempt(readCorrections), []);
  if (read === null) return null;
  return (
    <section aria-label={say`Proposed points`} className={styles.section}>
      <h3>{say`Proposed points`}</h3>
      <p className={lay.soft}>
        {say`How far a proposed point lies from yours is assumed, until you have put it right in ${String(LEAST_LESSONS)} to ${String(MOST_LESSONS)} lessons. Points that you accept where they stand count with it.`}{' '}
        {say`A checkpoint at which you have done so as often has an error of its own.`}
      </p>
      {read.corrections.length === 0 ? null : <ErrorTable read={read} />}
      {read.leftOut === 0 ? null : (
        <p className={lay.soft}>
          {read.leftOut === 1
            ? say`1 correction from before you began anew does not count.`
            : say`${String(read.leftOut)} corrections from before you began anew do not count.`}
        </p>
      )}
      {read.brought === 0 ? null : (
        <p className={lay.soft}>
          {read.brought === 1
            ? say`1 correction that came with a swing file does not count.`
            : say`${String(read.brought)} corrections that came with swing files do not count.`}
        </p>
      )}
      {read.corrections.length === 0 ? null : (
        <div className={lay.row}>
          <Button small onPress={() => setAsks(true)}>{say`Begin anew`}</Button>
        </div>
      )}
      {asks ? (
        <ConfirmDialog
          title={say`Forget what was learnt?`}
          what={say`What you corrected until now no longer counts, and errors are assumed again. Your marks stay. This cannot be taken back.`}
          doIt={say`Forget it`}
          onDo={() => void attempt(forgetCorrections)}
          onClose={() => setAsks(false)}
        />
      ) : null}
    </section>
  );
}

function ErrorTable({ read: { corrections, errors } }: { readonly read: Learning }) {
  return (
    <table className={`${styles.table ?? ''} ${styles.errors ?? ''}`} aria-label={say`Error of each proposed point`}>
      <thead>
        <tr>
          <th scope="col">{say`Body point`}</th>
          <th scope="col">{say`View`}</th>
          <th scope="col">{say`Where in the swing`}</th>
          <th scope="col">{say`Lies off by`}</th>
          <th scope="col">{say`Known from`}</th>
          <th scope="col">{say`You put it`}</th>
        </tr>
      </thead>
      {inListOrder(errors).map((error) => {
        const { point, view } = error;
        const of = corrections.filter((each) => each.point === point && each.view === view);
        const rows = learntInWords(error, of);
        return (
          <tbody key={`${view} ${point}`}>
            {rows.map(({ where, off, from, offset }, at) => (
              <tr key={where}>
                {at > 0 ? null : (
                  <>
                    <th scope="rowgroup" rowSpan={rows.length}>
                      {BODY_POINT_INFO[point].label}
                    </th>
                    <td rowSpan={rows.length}>{VIEW_LABELS[view]}</td>
                  </>
                )}
                <td>{where}</td>
                <td>{off}</td>
                <td>{from}</td>
                <td>{offset}</td>
              </tr>
            ))}
          </tbody>
        );
      })}
    </table>
  );
}
