import { useMemo } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
import type { LessonReport } from '../../core/report/lesson-report.ts';
import { verdictWithReason } from '../../core/report/shown-reading.ts';
import { whatChanged } from '../../core/report/what-changed.ts';
import { Fold } from '../controls/fold.tsx';
import styles from './comparison-page.module.css';
import { openComparison } from './state/comparing.ts';

/** What did not change and what nobody can tell, in a line each; folded, every reading with then and now in one row. */
export function ComparedTable({ report, view }: { readonly report: LessonReport; readonly view: View }) {
  const told = useMemo(() => whatChanged(report), [report]);
  if (told === null) return null;
  const here = report.comparisons.filter(({ comparison }) => comparison.view === view);
  const checkpoints = CHECKPOINTS.filter((each) => here.some(({ comparison }) => comparison.checkpoint === each));
  return (
    <div className={styles.rest}>
      {told.noChange === null ? null : (
        <p className={styles.line} title={told.noChange}>
          {told.noChange}
        </p>
      )}
      {told.cantTell === null ? null : (
        <p className={styles.line} title={told.cantTell}>
          {told.cantTell}
        </p>
      )}
      <Fold head={say`All ${String(here.length)} readings, ${lowered(VIEW_LABELS[view])}`}>
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">{say`Reading`}</th>
              <th scope="col" data-time="then">{say`Then`}</th>
              <th scope="col" data-time="now">{say`Now`}</th>
              <th scope="col">{say`Difference`}</th>
              <th scope="col">{say`Says`}</th>
            </tr>
          </thead>
          {checkpoints.map((checkpoint) => (
            <tbody key={checkpoint}>
              <tr>
                <th scope="rowgroup" colSpan={5}>
                  <button type="button" className={styles.go} onClick={() => openComparison(view, checkpoint)}>
                    {CHECKPOINT_LABELS[checkpoint]}
                  </button>
                </th>
              </tr>
              {here
                .filter(({ comparison }) => comparison.checkpoint === checkpoint)
                .map((shown) => (
                  <tr key={`${shown.comparison.id} ${shown.comparison.aspect}`} data-verdict={shown.comparison.verdict}>
                    <th scope="row">{shown.label}</th>
                    <td title={shown.means.then ?? ''}>{shown.then}</td>
                    <td title={shown.means.now ?? ''}>{shown.now}</td>
                    <td>{shown.difference}</td>
                    <td title={shown.meaning}>{verdictWithReason(shown)}</td>
                  </tr>
                ))}
            </tbody>
          ))}
        </table>
      </Fold>
    </div>
  );
}
