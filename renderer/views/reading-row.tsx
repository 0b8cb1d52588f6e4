import { memo } from 'react';
import { sameReading } from '../../core/model/reading.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { Comparison, MeasuredReading } from '../../core/model/reading.ts';
import { CATALOGUE } from '../../core/measure/catalogue.ts';
import { DEFAULT_PATTERN } from '../../core/measure/default-pattern.ts';
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
import { judgeWanted } from '../../core/measure/judge-wanted.ts';
import type { Judgement } from '../../core/measure/judge-wanted.ts';
import { wantedOf } from '../../core/measure/pattern.ts';
import type { WantedRange } from '../../core/measure/pattern.ts';
import { app } from '../state/app.ts';
import { openBench, showReading } from '../state/bench-actions.ts';
import { useStore } from '../state/store.ts';
import { PinToggle } from './pin-toggle.tsx';
import type { PinState } from './pin-toggle.tsx';
import styles from './readings-panel.module.css';

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
  const wanted = wantedFor(reading);
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
        {wanted === null ? null : (
          <span className={styles.wide}>
            Wanted {formatWanted(wanted.range)}: <strong>{wanted.judgement}</strong>
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

function showOnItsFrame(clip: BookClip, { id, aspect, view, checkpoint }: MeasuredReading): void {
  const frame = clip.checkpoints[checkpoint];
  const { bench } = app.get();
  if (frame !== undefined && (bench?.clipId !== clip.id || bench.index !== frame.index))
    openBench(clip.id, frame.index);
  showReading({ id, aspect, view, checkpoint });
}

interface Wanted {
  readonly range: WantedRange;
  readonly judgement: Judgement;
}

/** null where the pattern wants nothing, or not in this unit. */
function wantedFor(reading: MeasuredReading): Wanted | null {
  if (reading.aspect === 'change') return null;
  const range = wantedOf(DEFAULT_PATTERN, reading.id, reading.checkpoint);
  const judgement = range === null ? null : judgeWanted(reading, range);
  return range === null || judgement === null ? null : { range, judgement };
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
          {wanted.range.words} Where this is from: {wanted.range.basis}. {JUDGEMENT_MEANINGS[wanted.judgement]}
        </li>
      )}
      {comparison === undefined ? null : <li>{VERDICT_MEANINGS[comparison.verdict]}</li>}
      <li>{METHOD_WORDS[reading.method]}</li>
      <Budget reading={reading} />
      {reading.notes.map((note) => (
        <li key={note}>{NOTE_WORDS[note]}</li>
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
