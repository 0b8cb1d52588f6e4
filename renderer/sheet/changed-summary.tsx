import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import { fullLabelOf, VERDICT_MEANINGS, VERDICT_WORDS } from '../../core/measure/words/format.ts';
import type { Comparison } from '../../core/model/reading.ts';
import type { LessonReport } from '../../core/report/lesson-report.ts';
import { changedIn } from '../../core/report/changed.ts';
import { openBench, showReading } from '../bench/state/bench-actions.ts';
import { app } from '../shell/state/app-state.ts';
import { Button } from '../controls/button.tsx';
import styles from './sheet-page.module.css';
import { VerdictWorthFold } from './verdict-worth.tsx';

/** So many are named; the rest stands in the cells below. */
const MOST_NAMED = 6;

/** What changed since then and what is worth a look, the clearest first by name; how much did not, and how much nobody can tell. */
export function ChangedSummary({ report }: { readonly report: LessonReport }) {
  if (report.comparisons.length === 0) return null;
  const { changed, worthALook, same, unsure } = changedIn(report);
  const all = [...changed, ...worthALook];
  const named = all.slice(0, MOST_NAMED);
  return (
    <section className={styles.summary} aria-label={say`What changed since then`}>
      <p>
        <strong title={VERDICT_MEANINGS.changed}>
          {changed.length === 0 ? say`Nothing changed for sure` : `${String(changed.length)} ${VERDICT_WORDS.changed}`}
        </strong>
        {', '}
        <span title={VERDICT_MEANINGS['worth a look']}>
          {worthALook.length} {VERDICT_WORDS['worth a look']}
        </span>
        {', '}
        <span title={VERDICT_MEANINGS['no change']}>
          {same} {VERDICT_WORDS['no change']}
        </span>
        ,{' '}
        <span title={VERDICT_MEANINGS["can't tell"]}>
          {unsure} {VERDICT_WORDS["can't tell"]}
        </span>
        .
      </p>
      {report.swings === null ? null : <p>{report.swings}</p>}
      {all.length === 0 ? null : (
        <ul>
          {named.map(({ comparison, difference }) => (
            <li key={fullLabelOf(comparison)}>
              <Button small look="quiet" onPress={() => openReading(comparison)}>
                {fullLabelOf(comparison)}: {difference}
              </Button>
            </li>
          ))}
          {all.length > named.length ? (
            <li>{said`and ${all.length - named.length} more, in the cells below`}</li>
          ) : null}
        </ul>
      )}
      <VerdictWorthFold />
    </section>
  );
}

/** Opens the frame of a reading on the bench, with the reading drawn on it. */
function openReading({ id, aspect, view, checkpoint }: Comparison): void {
  const clip = app.get().swing?.clips.find((each) => each.view === view);
  const frame = clip?.checkpoints[checkpoint];
  if (clip === undefined || frame === undefined) return;
  openBench(clip.id, frame.index);
  showReading({ id, aspect, view, checkpoint });
}
