import { memo } from 'react';
import { sameReading } from '../../core/model/reading.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { Comparison, MeasuredReading } from '../../core/model/reading.ts';
import { CATALOGUE } from '../../core/measure/catalogue.ts';
import {
  formatBudget,
  formatDifference,
  formatReading,
  formatWanted,
  JUDGEMENT_MEANINGS,
  labelOf,
  meaningOf,
  METHOD_TAGS,
  METHOD_WORDS,
  NOTE_TAGS,
  NOTE_WORDS,
  VERDICT_MEANINGS,
} from '../../core/measure/format.ts';
import { judgeWanted, missSide } from '../../core/measure/judge-wanted.ts';
import type { Judgement } from '../../core/measure/judge-wanted.ts';
import { isWordsOnly, wantedOf } from '../../core/measure/pattern.ts';
import { IMPLAUSIBLE_QUESTION, isImplausible } from '../../core/measure/plausible.ts';
import type { Pattern, WantedRange } from '../../core/model/pattern.ts';
import { app } from '../state/app.ts';
import { showReading } from '../state/bench-actions.ts';
import { ownPattern } from '../state/pattern.ts';
import { openRepeatCheck } from '../state/repeat-check.ts';
import { useStore } from '../state/store.ts';
import { Button } from './parts/button.tsx';
import { PinToggle } from './pin-toggle.tsx';
import type { PinState } from './pin-toggle.tsx';
import styles from './readings-panel.module.css';
import { showOnItsFrame } from './show-reading.ts';

interface ReadingRowProps {
  readonly clip: BookClip;
  readonly reading: MeasuredReading;
  readonly comparison: Comparison | undefined;
  /** Said where the reading is made from the selected mark, else null. */
  readonly from: string | null;
  readonly pin: PinState;
}

/**
 * One reading: its number, how it stands to the wanted range, in short how it was made. A press shows on its own frame
 * what it measures, and says the rest in full; again hides it.
 */
export const ReadingRow = memo(function ReadingRow({ clip, reading, comparison, from, pin }: ReadingRowProps) {
  const shown = useStore(app, (state) => state.bench?.shownReading ?? null);
  const isShown = shown !== null && sameReading(shown, reading);
  const meaning = meaningOf(reading);
  const { pattern } = useStore(ownPattern, (state) => state);
  const club = useStore(app, (state) => state.swing?.lesson.club ?? '');
  const wanted = wantedFor(reading, pattern, club);
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
        <span className={styles.name}>{labelOf(reading)}</span>
        <span className={styles.number}>{formatReading(reading).text}</span>
        {meaning === null ? null : <span className={styles.wide}>{meaning}</span>}
        {isImplausible(reading) ? <strong className={styles.wide}>{IMPLAUSIBLE_QUESTION}</strong> : null}
        {wanted === null || wanted.judgement === null ? null : (
          <span className={styles.wide}>
            Wanted {formatWanted(wanted.range)}: <strong>{wanted.judgement}</strong>
          </span>
        )}
        {wanted === null || wanted.miss === null ? null : (
          <span className={styles.miss}>
            <strong>Missed {wanted.miss.side}.</strong> {wanted.miss.words}
          </span>
        )}
        {comparison === undefined ? null : <ThenNow comparison={comparison} />}
      </button>
      <div className={styles.foot}>
        <ul className={styles.tags} aria-label="How it was made">
          {from === null ? null : <li className={styles.from}>{from}</li>}
          <li>{METHOD_TAGS[reading.method]}</li>
          {reading.notes.map((note) => (
            <li key={note}>{NOTE_TAGS[note]}</li>
          ))}
        </ul>
        <PinToggle reading={reading} pin={pin} />
      </div>
      {isShown ? <InFull reading={reading} comparison={comparison} wanted={wanted} /> : null}
    </li>
  );
});

interface Wanted {
  readonly range: WantedRange;
  /** null for words alone. */
  readonly judgement: Judgement | null;
  /** What the miss does to the strike, in the coach's words; null where nothing is missed, or nothing said. */
  readonly miss: { readonly side: 'low' | 'high'; readonly words: string } | null;
}

/** null where the pattern says nothing of a reading with this club, or not in this unit. */
function wantedFor(reading: MeasuredReading, pattern: Pattern, club: string): Wanted | null {
  const range = wantedOf(pattern, reading, club);
  if (range === null) return null;
  if (isWordsOnly(range)) return { range, judgement: null, miss: null };
  const judgement = judgeWanted(reading, range);
  if (judgement === null) return null;
  const side = missSide(reading, range);
  const words = side === null ? '' : range.miss[side];
  return { range, judgement, miss: side === null || words === '' ? null : { side, words } };
}

/** The whole of what a shown reading has to say, in sentences. */
function InFull(props: {
  readonly reading: MeasuredReading;
  readonly comparison: Comparison | undefined;
  readonly wanted: Wanted | null;
}) {
  const { reading, comparison, wanted } = props;
  return (
    <ul className={styles.notes}>
      <li>{CATALOGUE[reading.id].formula}</li>
      {wanted === null ? null : (
        <li>
          {wanted.range.words} Where this is from: {wanted.range.basis}.
          {wanted.judgement === null ? null : ` ${JUDGEMENT_MEANINGS[wanted.judgement]}`}
        </li>
      )}
      {comparison === undefined ? null : <li>{VERDICT_MEANINGS[comparison.verdict]}</li>}
      <li>{METHOD_WORDS[reading.method]}</li>
      <Budget reading={reading} />
      {reading.notes.map((note) => (
        <li key={note}>
          {NOTE_WORDS[note]}
          {note === 'placing-assumed' ? (
            <Button small look="quiet" onPress={openRepeatCheck}>
              Measure yours
            </Button>
          ) : null}
        </li>
      ))}
    </ul>
  );
}

/** What the ± of a reading is made of, each part as large as it would be alone. */
function Budget({ reading }: { readonly reading: MeasuredReading }) {
  const parts = formatBudget(reading);
  if (parts.length === 0) return null;
  return (
    <li>
      <table className={styles.budget}>
        <caption>What the ± is made of</caption>
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
        {formatDifference(comparison).text}: <strong className={styles.verdict}>{comparison.verdict}</strong>
      </span>
    </span>
  );
}
