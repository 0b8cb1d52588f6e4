import { useMemo } from 'react';
import { formatAgreement, formatAmount, labelOf } from '../../core/measure/format.ts';
import { readingRepeats } from '../../core/measure/repeat/reading-repeats.ts';
import type { ReadingRepeat } from '../../core/measure/repeat/reading-repeats.ts';
import { repeatFrameOf } from '../../core/model/repeat-check.ts';
import type { NewRepeatCheck, RepeatFrame } from '../../core/model/repeat-check.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import { app } from '../state/app.ts';
import { attempt } from '../state/messages.ts';
import { clipToCheck, closeRepeatCheck, swingToCheck, takeNumbers } from '../state/repeat-check.ts';
import type { SwingsToCheck } from '../state/repeat-check.ts';
import { useStore } from '../state/store.ts';
import { Button } from './parts/button.tsx';
import { PlacingTable } from './placing-table.tsx';
import styles from './repeat-page.module.css';

/** What a finished check says, and whether readings are to count with it. */
export function RepeatResult({ check }: { readonly check: NewRepeatCheck }) {
  const swing = useStore(app, (state) => state.swing);
  const then = useStore(app, (state) => state.then);
  const frames = useMemo(() => framesOf({ swing, then }, check), [swing, then, check]);
  const repeats = useMemo(() => readingRepeats(frames), [frames]);
  return (
    <div className={styles.page}>
      <h2>Your own placing error</h2>
      <PlacingTable frames={frames} />
      {repeats.length === 0 ? (
        <p className={styles.soft}>No reading has all of its points in this check.</p>
      ) : (
        <ReadingTable repeats={repeats} />
      )}
      <p>
        With these numbers in use, the ± of every reading rests on your own hand for the points above. Points that were
        not checked, and shapes, keep the assumed 3 px.
      </p>
      <div className={styles.row}>
        <Button look="main" autoFocus onPress={() => void attempt(takeNumbers)}>
          Use these numbers
        </Button>
        <Button onPress={closeRepeatCheck}>Do not use</Button>
        <span className={styles.soft}>A check that is not used is dropped.</span>
      </div>
    </div>
  );
}

/** What the check says of each frame together with what the window knows of its clip. */
function framesOf(state: SwingsToCheck, check: NewRepeatCheck): readonly RepeatFrame[] {
  return check.frames.flatMap((placed) => {
    const clip = clipToCheck(state, placed.clipId);
    const owner = swingToCheck(state, placed.clipId);
    return clip === null || owner === null ? [] : [repeatFrameOf(clip, owner.lesson.handedness, placed)];
  });
}

function ReadingTable({ repeats }: { readonly repeats: readonly ReadingRepeat[] }) {
  return (
    <section aria-label="Readings" className={styles.section}>
      <h3>What that makes of readings</h3>
      <ul className={styles.words}>
        <li>
          SEM, standard error of measurement: how far placing alone puts one reading off (one standard deviation).
        </li>
        <li>
          MDC95, minimal detectable change: a smaller change between two readings can come from placing alone (95 %).
        </li>
        <li>
          ICC, intraclass correlation: the share of the differences between these frames that is not placing; 1 is all
          of it.
        </li>
      </ul>
      <table className={styles.table} aria-label="How well each reading repeats">
        <thead>
          <tr>
            <th scope="col">Reading</th>
            <th scope="col">SEM</th>
            <th scope="col">MDC95</th>
            <th scope="col">ICC</th>
            <th scope="col">From</th>
          </tr>
        </thead>
        <tbody>
          {repeats.map((repeat) => (
            <tr key={[repeat.id, repeat.aspect, repeat.view, repeat.unit].join(' ')}>
              <th scope="row">
                {labelOf(repeat)}, {VIEW_LABELS[repeat.view].toLowerCase()}
              </th>
              <td>{formatAmount(repeat.sem, repeat.unit)}</td>
              <td>{formatAmount(repeat.smallestChange, repeat.unit)}</td>
              <td>{repeat.icc === null ? 'needs two frames' : formatAgreement(repeat.icc)}</td>
              <td>
                {repeat.things === 1 ? '1 frame' : `${String(repeat.things)} frames`}, {repeat.rounds} placings
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
