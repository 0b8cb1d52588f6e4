import type { Figures } from '../../core/measure/words/figures.ts';
import { fullLabelOf, VERDICT_MEANINGS } from '../../core/measure/words/format.ts';
import type { Comparison, Verdict } from '../../core/model/reading.ts';
import { openBench, showReading } from '../bench/state/bench-actions.ts';
import { app } from '../shell/state/app-state.ts';
import { Button } from '../controls/button.tsx';
import styles from './sheet-page.module.css';

/** So many are named; the rest stands in the cells below. */
const MOST_NAMED = 6;

/** What moved since then, the clearest first by name; how much held, and how much nobody can tell. Of what is of use. */
export function MovedSummary(props: { readonly comparisons: readonly Comparison[]; readonly figures: Figures }) {
  const { comparisons, figures } = props;
  if (comparisons.length === 0) return null;
  const of = (verdict: Verdict) => comparisons.filter((each) => each.verdict === verdict);
  const clearness = ({ difference, coverage, u }: Comparison) => Math.abs(difference) / (coverage * u);
  const moved = of('moved').toSorted((one, other) => clearness(other) - clearness(one));
  const named = moved.slice(0, MOST_NAMED);
  return (
    <section className={styles.summary} aria-label="What moved since then">
      <p>
        <strong title={VERDICT_MEANINGS.moved}>
          {moved.length === 0 ? 'Nothing moved for sure' : `${String(moved.length)} moved`}
        </strong>
        {', '}
        <span title={VERDICT_MEANINGS.held}>{of('held').length} held</span>,{' '}
        <span title={VERDICT_MEANINGS["can't tell"]}>{of("can't tell").length} can&rsquo;t tell</span>.
      </p>
      {moved.length === 0 ? null : (
        <ul>
          {named.map((each) => (
            <li key={fullLabelOf(each)}>
              <Button small look="quiet" onPress={() => openReading(each)}>
                {fullLabelOf(each)}: {figures.comparison(each).difference.text}
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
