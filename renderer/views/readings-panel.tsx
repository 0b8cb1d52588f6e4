import { memo } from 'react';
import { sameReading } from '../../core/model/reading.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { Comparison, MeasuredReading, MissingReading, Reading } from '../../core/model/reading.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS } from '../../core/model/words.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { isDamaged } from '../../core/time/damaged-spans.ts';
import { CATALOGUE } from '../../core/measure/catalogue.ts';
import {
  formatDifference,
  formatReading,
  labelOf,
  meaningOf,
  missingWords,
  NOTE_WORDS,
  VERDICT_MEANINGS,
} from '../../core/measure/format.ts';
import { isOfUse } from '../../core/measure/of-use.ts';
import { app } from '../state/app.ts';
import { openBench, showReading } from '../state/bench-actions.ts';
import { useStore } from '../state/store.ts';
import styles from './readings.module.css';
import type { Results } from './use-readings.ts';
import { DAMAGED_FRAME } from './words.ts';

/** The readings of one clip by checkpoint; the one of the frame on the bench comes first. */
export const ReadingsPanel = memo(function ReadingsPanel(props: {
  readonly clip: BookClip;
  readonly results: Results;
  readonly here: Checkpoint | null;
}) {
  const { clip, results, here } = props;
  const index = useStore(app, (state) => state.indexes[clip.id]);
  const mine = results.now.filter((reading) => reading.view === clip.view);
  const named = CHECKPOINTS.filter((checkpoint) => clip.checkpoints[checkpoint] !== undefined);
  const order = here === null ? named : [here, ...named.filter((checkpoint) => checkpoint !== here)];
  if (order.length === 0) {
    return (
      <p>
        No frame of this clip has a name yet. Go to address, top or impact and press its name on the left: its readings
        come here.
      </p>
    );
  }
  return (
    <div className={styles.panel}>
      {order.map((checkpoint) => (
        <section key={checkpoint} className={styles.group} aria-label={`Readings at ${CHECKPOINT_LABELS[checkpoint]}`}>
          <h3>
            {CHECKPOINT_LABELS[checkpoint]}
            {checkpoint === here ? <span>this frame</span> : null}
          </h3>
          {isOnDamage(clip, index, checkpoint) ? <p className={styles.damaged}>{DAMAGED_FRAME}</p> : null}
          <Group
            clip={clip}
            readings={mine.filter((reading) => reading.checkpoint === checkpoint)}
            comparisons={results.comparisons}
          />
        </section>
      ))}
    </div>
  );
});

function isOnDamage(clip: BookClip, index: ClipIndex | undefined, checkpoint: Checkpoint): boolean {
  const named = clip.checkpoints[checkpoint];
  return named !== undefined && index !== undefined && isDamaged(index, named.index);
}

function Group(props: {
  readonly clip: BookClip;
  readonly readings: readonly Reading[];
  readonly comparisons: readonly Comparison[];
}) {
  const made = props.readings.filter((reading) => reading.state === 'measured');
  const measured = made.filter(isOfUse);
  const idle = made.filter((reading) => !isOfUse(reading));
  const missing = props.readings.filter((reading) => reading.state === 'missing');
  return (
    <>
      {measured.map((reading) => (
        <ReadingRow
          key={`${reading.id} ${reading.aspect}`}
          clip={props.clip}
          reading={reading}
          comparison={props.comparisons.find((entry) => sameReading(entry, reading))}
        />
      ))}
      {missing.length === 0 ? null : <Missing readings={missing} open={measured.length === 0} />}
      {idle.length === 0 ? null : (
        <details className={styles.missing}>
          <summary>
            {idle.length === 1 ? '1 that tells nothing here' : `${String(idle.length)} that tell nothing here`}
          </summary>
          <ul>
            {idle.map((reading) => (
              <li key={`${reading.id} ${reading.aspect}`}>
                {labelOf(reading)}
                <span>{NOTE_WORDS['short-line']}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function Missing({ readings, open }: { readonly readings: readonly MissingReading[]; readonly open: boolean }) {
  return (
    <details className={styles.missing} open={open}>
      <summary>{readings.length === 1 ? '1 more can be read' : `${String(readings.length)} more can be read`}</summary>
      <ul>
        {readings.map((reading) => (
          <li key={`${reading.id} ${reading.aspect}`}>
            {labelOf(reading)}
            <span>{missingWords(reading)}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}

interface ReadingRowProps {
  readonly clip: BookClip;
  readonly reading: MeasuredReading;
  readonly comparison: Comparison | undefined;
}

/** A press shows which points and shapes the number comes from, on its own frame, and how it was made; again hides it. */
function ReadingRow({ clip, reading, comparison }: ReadingRowProps) {
  const shown = useStore(app, (state) => state.bench?.shownReading ?? null);
  const isShown = shown !== null && sameReading(shown, reading);
  const meaning = meaningOf(reading);
  const press = () => {
    if (isShown) return showReading(null);
    const frame = clip.checkpoints[reading.checkpoint];
    if (frame !== undefined && app.get().bench?.index !== frame.index) openBench(clip.id, frame.index);
    showReading({
      id: reading.id,
      aspect: reading.aspect,
      view: reading.view,
      checkpoint: reading.checkpoint,
    });
  };
  return (
    <>
      <button type="button" className={styles.reading} aria-pressed={isShown} onClick={press}>
        <span>{labelOf(reading)}</span>
        <span className={styles.number}>{formatReading(reading).text}</span>
        {meaning === null ? null : <span className={`${styles.wide ?? ''} ${styles.soft ?? ''}`}>{meaning}</span>}
        {comparison === undefined ? null : <ThenNow comparison={comparison} />}
      </button>
      {isShown ? (
        <ul className={styles.notes}>
          <li>{CATALOGUE[reading.id].formula}</li>
          {reading.notes.map((note) => (
            <li key={note}>{NOTE_WORDS[note]}</li>
          ))}
        </ul>
      ) : null}
    </>
  );
}

function ThenNow({ comparison }: { readonly comparison: Comparison }) {
  return (
    <span className={styles.thenNow}>
      <span className={styles.tag} data-time="then">
        Then
      </span>
      <span>{formatReading(comparison.then).text}</span>
      <span className={styles.tag}>Now</span>
      <span>{formatReading(comparison.now).text}</span>
      <span className={styles.tag} data-time="none">
        Differs
      </span>
      <span>
        {formatDifference(comparison).text}:{' '}
        <span className={styles.verdict} title={VERDICT_MEANINGS[comparison.verdict]}>
          {comparison.verdict}
        </span>
      </span>
    </span>
  );
}
