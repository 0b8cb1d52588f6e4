import { say } from '../../../core/model/say.ts';
import { CATALOGUE } from '../../../core/measure/catalogue/catalogue.ts';
import {
  formatBudget,
  formatWanted,
  JUDGEMENT_MEANINGS,
  METHOD_WORDS,
  NOTE_WORDS,
  otherUnitWords,
} from '../../../core/measure/words/format.ts';
import { sourceSentence } from '../../../core/measure/goals/goals-source.ts';
import type { MeasuredReading } from '../../../core/model/reading.ts';
import { useSmallestChange } from './use-smallest-change.ts';
import { openRepeatCheck } from '../../repeat/state/repeat-check.ts';
import { Button } from '../../controls/button.tsx';
import styles from './reading-in-full.module.css';
import { WantedHere } from './wanted-here.tsx';
import type { Wanted } from './wanted-of-reading.ts';

/** The whole of what a shown reading has to say, in sentences, and what is wanted of it. */
export function ReadingInFull(props: {
  readonly reading: MeasuredReading;
  /** What its verdict means; null without one. */
  readonly verdict: string | null;
  readonly wanted: Wanted | null;
}) {
  const { reading, verdict, wanted } = props;
  const smallest = useSmallestChange(reading);
  return (
    <ul className={styles.notes}>
      <li>{CATALOGUE[reading.id].formula}</li>
      <li>
        {wanted === null ? null : <p>{wantedSentences(wanted)}</p>}
        <WantedHere reading={reading} wanted={wanted} />
      </li>
      {verdict === null && smallest === null ? null : <li>{verdict ?? smallest}</li>}
      <li>{METHOD_WORDS[reading.method]}</li>
      <Budget reading={reading} />
      {reading.notes.map((note) => (
        <li key={note}>
          {NOTE_WORDS[note]}
          {note === 'placing-assumed' ? (
            <Button small look="quiet" onPress={openRepeatCheck}>{say`Measure yours`}</Button>
          ) : null}
        </li>
      ))}
    </ul>
  );
}

/** The coach's words, where they are from, and what the judgement means or why there is none. */
function wantedSentences({ range, judgement, inOtherUnit }: Wanted): string {
  return [
    range.words,
    sourceSentence(range.basis) ?? '',
    judgement === null ? '' : JUDGEMENT_MEANINGS[judgement],
    inOtherUnit ? say`Goal ${formatWanted(range)}. ${otherUnitWords(range)}` : '',
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

/** What the ± of a reading is made of, each part as large as it would be alone. */
function Budget({ reading }: { readonly reading: MeasuredReading }) {
  const parts = formatBudget(reading);
  if (parts.length === 0) return null;
  return (
    <li>
      <table className={styles.budget}>
        <caption>{say`What the ± is made of`}</caption>
        <tbody>
          {parts.map(({ source, words, text, share }) => (
            <tr key={source}>
              <th scope="row">{words}</th>
              <td>{text}</td>
              <td aria-hidden="true">
                <span className={styles.share} style={{ width: `${String(100 * share)}%` }} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </li>
  );
}
