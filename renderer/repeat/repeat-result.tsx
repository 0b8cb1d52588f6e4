import { useMemo } from 'react';
import type { ReactNode } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import { formatAgreement, formatAmount } from '../../core/measure/words/format.ts';
import { namingsInWords } from '../../core/measure/repeat/naming-spread.ts';
import { readingRepeats } from '../../core/measure/repeat/reading-repeats.ts';
import type { ReadingRepeat } from '../../core/measure/repeat/reading-repeats.ts';
import {
  capital,
  changesInWords,
  enoughInWords,
  repeatName,
  scatterInWords,
} from '../../core/measure/repeat/repeat-words.ts';
import { repeatFrameOf } from '../../core/model/repeat-check.ts';
import type { NewRepeatCheck, RepeatFrame } from '../../core/model/repeat-check.ts';
import { app } from '../shell/state/app-state.ts';
import { attempt } from '../shell/state/messages.ts';
import { ownGoals } from '../goals/state/goals.ts';
import { clipToCheck, closeRepeatCheck, swingToCheck, takeNumbers } from './state/repeat-check.ts';
import type { SwingsToCheck } from './state/repeat-check.ts';
import { useStore } from '../shell/state/store.ts';
import { Button } from '../controls/button.tsx';
import { Fold } from '../controls/fold.tsx';
import { PlacingTable } from './placing-table.tsx';
import styles from './repeat-page.module.css';
import lay from '../controls/lay.module.css';

/** What a finished check says, and whether readings are to count with it. */
export function RepeatResult({ check }: { readonly check: NewRepeatCheck }) {
  const swing = useStore(app, (state) => state.swing);
  const then = useStore(app, (state) => state.then);
  const frames = useMemo(() => framesOf({ swing, then }, check), [swing, then, check]);
  const repeats = useMemo(() => readingRepeats(frames), [frames]);
  const goals = useStore(ownGoals, (state) => state.goals);
  return (
    <div className={styles.page}>
      <h2>{say`How steady your hand is`}</h2>
      <Told label={say`How far your clicks scatter`} sentences={scatterInWords(frames)} />
      <Told label={say`How far your namings scatter`} sentences={namingsInWords(check.namings)} />
      {frames.length === 0 ? null : repeats.length === 0 ? (
        <p className={lay.soft}>{say`No reading has all of its points in this check.`}</p>
      ) : (
        <>
          <Told label={say`What counts as a change`} sentences={changesInWords(repeats)}>
            <p
              className={lay.soft}
            >{say`± says how sure so many placings make it; more frames make it smaller. Between two lessons the camera moves too: the comparison counts that in beside your clicks.`}</p>
          </Told>
          <Told label={say`Which readings repeat well enough`} sentences={enoughInWords(repeats, goals)} />
          <ReadingTable repeats={repeats} />
        </>
      )}
      <section aria-label={say`How these numbers are made`} className={styles.section}>
        <Fold head={say`How these numbers are made, and each body point`}>
          <NumbersExplained />
          {frames.length === 0 ? null : <PlacingTable frames={frames} />}
        </Fold>
      </section>
      <p>{say`With these numbers in use, the ± of every reading rests on your own hand for the points and names above. Points that were not checked, and shapes, keep the assumed 3 px.`}</p>
      <div className={lay.row}>
        <Button look="main" autoFocus onPress={() => void attempt(takeNumbers)}>{say`Use these numbers`}</Button>
        <Button onPress={closeRepeatCheck}>{say`Do not use`}</Button>
        <span className={lay.soft}>{say`A check that is not used is dropped.`}</span>
      </div>
    </div>
  );
}

interface ToldProps {
  readonly label: string;
  readonly sentences: readonly string[];
  readonly children?: ReactNode;
}

function Told({ label, sentences, children }: ToldProps) {
  if (sentences.length === 0) return null;
  return (
    <section aria-label={label} className={styles.told}>
      <h3>{label}</h3>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {children}
    </section>
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

function NumbersExplained() {
  return (
    <ul className={styles.words}>
      <li>{say`Scatter of one reading is the standard error of measurement (SEM): how far placing alone puts one reading off, as one standard deviation.`}</li>
      <li>{say`Smallest change that counts is the minimal detectable change (MDC95), 1.96 × √2 × SEM: in 95 of 100 cases placing alone makes less of a difference between two readings.`}</li>
      <li>{say`Agreement is the intraclass correlation (ICC): the share of the differences between these frames that is not placing; 1 is all of it.`}</li>
      <li>{say`Click error is the standard deviation of your clicks on one point, across and up or down alike. 19 of 20 clicks land within 2.45 times that.`}</li>
    </ul>
  );
}

function ReadingTable({ repeats }: { readonly repeats: readonly ReadingRepeat[] }) {
  return (
    <table className={styles.table} aria-label={say`How well each reading repeats`}>
      <thead>
        <tr>
          <th scope="col">{say`Reading`}</th>
          <th scope="col">{say`Scatter of one reading (SEM)`}</th>
          <th scope="col">{say`Smallest change that counts (MDC95)`}</th>
          <th scope="col">{say`Agreement (ICC)`}</th>
          <th scope="col">{say`From`}</th>
        </tr>
      </thead>
      <tbody>
        {repeats.map((repeat) => (
          <tr key={[repeat.id, repeat.aspect, repeat.view, repeat.unit].join(' ')}>
            <th scope="row">{capital(repeatName(repeat))}</th>
            <td>{formatAmount(repeat.sem, repeat.unit)}</td>
            <td>{formatAmount(repeat.smallestChange, repeat.unit)}</td>
            <td>{repeat.icc === null ? say`needs two frames` : formatAgreement(repeat.icc)}</td>
            <td>
              {repeat.things === 1
                ? said`1 frame, ${repeat.rounds} placings`
                : said`${String(repeat.things)} frames, ${repeat.rounds} placings`}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
