import { JUDGEMENT_WORDS } from '../../../core/measure/words/words.ts';
import { memo } from 'react';
import { say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import { sameReading } from '../../../core/model/reading.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { CellReading } from '../../../core/report/cell.ts';
import { verdictWithReason, type ShownComparison } from '../../../core/report/shown-reading.ts';
import { TERMS, readingMeaning } from '../../../core/measure/words/glossary.ts';
import { JUDGEMENT_MEANINGS, formatWanted, METHOD_TAGS, NOTE_TAGS } from '../../../core/measure/words/format.ts';
import { app } from '../../shell/state/app-state.ts';
import { showReading } from '../state/bench-actions.ts';
import { ownGoals } from '../../goals/state/goals.ts';
import { useStore } from '../../shell/state/store.ts';
import { PinToggle } from './pin-toggle.tsx';
import { ReadingInFull } from './reading-in-full.tsx';
import styles from './readings-panel.module.css';
import { showOnItsFrame } from './show-reading.ts';
import { wantedOfReading } from './wanted-of-reading.ts';

interface ReadingRowProps extends CellReading {
  readonly clip: BookClip;
  /** Said where the reading is made from the selected mark, else null. */
  readonly from: string | null;
}

/**
 * One reading: its number, how it stands to its goal, in short how it was made. A press shows on its own frame
 * what it measures, and says the rest in full; again hides it.
 */
export const ReadingRow = memo(function ReadingRow(props: ReadingRowProps) {
  const { clip, reading, meaning, question, differs, from, pin } = props;
  const shown = useStore(app, (state) => state.bench?.shownReading ?? null);
  const isShown = shown !== null && sameReading(shown, reading);
  const { goals } = useStore(ownGoals, (state) => state);
  const club = useStore(app, (state) => state.swing?.lesson.club ?? '');
  const wanted = wantedOfReading(reading, goals, club);
  return (
    <li
      className={styles.row}
      {...(isShown ? { 'data-shown': '' } : {})}
      {...(from === null ? {} : { 'data-from': '' })}
    >
      <button
        type="button"
        className={styles.reading}
        aria-pressed={isShown}
        onClick={() => (isShown ? showReading(null) : showOnItsFrame(clip, reading))}
      >
        <span className={styles.name} title={readingMeaning(reading.id)}>
          {props.label}
        </span>
        <span className={styles.number} title={`±: ${TERMS.plusMinus.means}`}>
          {props.number}
        </span>
        {meaning === null ? null : <span className={styles.wide}>{meaning}</span>}
        {question === null ? null : <strong className={styles.wide}>{question}</strong>}
        {wanted === null || wanted.judgement === null ? null : (
          <span
            className={styles.wide}
          >{said`Goal ${formatWanted(wanted.range)}: ${<strong title={JUDGEMENT_MEANINGS[wanted.judgement]}>{JUDGEMENT_WORDS[wanted.judgement]}</strong>}`}</span>
        )}
        {wanted === null || wanted.miss === null ? null : (
          <span className={styles.miss}>
            <strong>{say`Your goals say:`}</strong> {wanted.miss.words}
          </span>
        )}
        {differs === null ? null : <ThenNow {...differs} />}
      </button>
      <div className={styles.foot}>
        <ul className={styles.tags} aria-label={say`How it was made`}>
          {from === null ? null : <li className={styles.from}>{from}</li>}
          <li>{METHOD_TAGS[reading.method]}</li>
          {reading.notes.map((note) => (
            <li key={note}>{NOTE_TAGS[note]}</li>
          ))}
        </ul>
        <PinToggle reading={reading} pin={pin} />
      </div>
      {isShown ? <ReadingInFull reading={reading} verdict={differs?.meaning ?? null} wanted={wanted} /> : null}
    </li>
  );
}, isSame);

/** A row is drawn anew only when one of its texts or its reading changes, however many other readings do. */
function isSame(before: ReadingRowProps, after: ReadingRowProps): boolean {
  const differing = Object.keys(after).filter((key) => !Object.is(Reflect.get(before, key), Reflect.get(after, key)));
  if (differing.some((key) => key !== 'differs')) return false;
  return verdictTexts(before) === verdictTexts(after);
}

function verdictTexts({ differs }: ReadingRowProps): string {
  return differs === null ? '' : [differs.then, differs.now, differs.difference, verdictWithReason(differs)].join('\n');
}

const withMean = (number: string, mean: string | null): string => (mean === null ? number : `${number}, ${mean}`);

function ThenNow(props: ShownComparison) {
  return (
    <span className={styles.thenNow}>
      <span className={styles.tag} data-time="then">{say`Then`}</span>
      <span>{withMean(props.then, props.means.then)}</span>
      <span className={styles.tag}>{say`Now`}</span>
      <span>{withMean(props.now, props.means.now)}</span>
      <span className={styles.tag} data-time="none">{say`Differs`}</span>
      <span>
        {props.difference}: <strong className={styles.verdict}>{verdictWithReason(props)}</strong>
      </span>
    </span>
  );
}
