import { fullLabelOf, VERDICT_MEANINGS, VERDICT_WORDS } from '../../core/measure/words/format.ts';
import type { Comparison } from '../../core/model/reading.ts';
import type { LessonReport } from '../../core/report/lesson-report.ts';
import { movedIn } from '../../core/report/moved.ts';
import { openBench, showReading } from '../bench/state/bench-actions.ts';
import { app } from '../shell/state/app-state.ts';
import { Button } from '../controls/button.tsx';
import styles from './sheet-page.module.css';

/** So many are named; the rest stands in the cells below. */
const MOST_NAMED = 6;

/** What moved since then, the clearest first by name; how much held, and how much nobody can tell. */
export function MovedSummary({ report }: { readonly report: LessonReport }) {
  if (report.comparisons.length === 0) return null;
  const { moved, held, unsure } = movedIn(report);
  const named = moved.slice(0, MOST_NAMED);
  return (
    <section className={styles.summary} aria-label="What moved since then">
      <p>
        <strong title={VERDICT_MEANINGS.moved}>
          {moved.length === 0 ? 'Nothing moved for sure' : `${String(moved.length)} ${VERDICT_WORDS.moved}`}
        </strong>
        {', '}
        <span title={VERDICT_MEANINGS.held}>
          {held} {VERDICT_WORDS.held}
        </span>
        ,{' '}
        <span title={VERDICT_MEANINGS["can't tell"]}>
          {unsure} {VERDICT_WORDS["can't tell"]}
        </span>
        .
      </p>
      {moved.length === 0 ? null : (
        <ul>
          {named.map(({ comparison, difference }) => (
            <li key={fullLabelOf(comparison)}>
              <Button small look="quiet" onPress={() => openReading(comparison)}>
                {fullLabelOf(comparison)}: {difference}
              </Button>
            </li>
          ))}
          {moved.length > named.length ? <li>and {moved.length - named.length} more, in the cells below</li> : null}
        </ul>
      )}
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
