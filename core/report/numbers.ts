import { idleWords, labelOf, missingWords, NOTE_WORDS } from '../measure/words/format.ts';
import { isOfUse } from '../measure/doubts/of-use.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../model/words.ts';
import type { Reading, ReadingAspect, ReadingId, Unit } from '../model/reading.ts';
import type { MarkedSwing } from '../model/swing.ts';
import type { Checkpoint, View } from '../model/words.ts';

/** One reading as others read it: what it is, its number where it has one, and what it holds under. */
export interface NumberRow {
  readonly id: ReadingId;
  readonly aspect: ReadingAspect;
  readonly view: View;
  readonly checkpoint: Checkpoint;
  readonly label: string;
  /** In `unit`, not rounded; null where there is none. */
  readonly value: number | null;
  readonly unit: Unit | null;
  /** Half of the 95 % interval, in `unit`, >= 0. */
  readonly plusMinus: number | null;
  /** The 95 % interval, in `unit`. */
  readonly low: number | null;
  readonly high: number | null;
  /** Standard uncertainty, in `unit`, >= 0. */
  readonly standardUncertainty: number | null;
  readonly method: 'first-order' | 'monte-carlo' | null;
  /** measured: a number of use. too unsure: a number whose ± leaves nothing of it. missing: none. */
  readonly state: 'measured' | 'too unsure' | 'missing';
  /** What the number holds under, or why there is none of use, as sentences. */
  readonly conditions: readonly string[];
}

/** All readings of one swing for use elsewhere. */
export interface SwingNumbers {
  readonly format: 'baybook-numbers';
  readonly version: 1;
  readonly student: string;
  /** ISO 8601. */
  readonly date: string;
  readonly club: string;
  readonly handedness: MarkedSwing['handedness'];
  readonly readings: readonly NumberRow[];
}

/** @param readings those of the swing, in the order they are to stand in. */
export function numbersOf(swing: MarkedSwing, readings: readonly Reading[]): SwingNumbers {
  const { studentFirstName: student, date, club, handedness } = swing;
  return { format: 'baybook-numbers', version: 1, student, date, club, handedness, readings: readings.map(rowOf) };
}

function rowOf(reading: Reading): NumberRow {
  const { id, aspect, view, checkpoint } = reading;
  const key = { id, aspect, view, checkpoint, label: labelOf(reading) };
  if (reading.state === 'missing')
    return {
      ...key,
      ...{ value: null, unit: null, plusMinus: null, low: null, high: null, standardUncertainty: null, method: null },
      ...{ state: 'missing', conditions: [missingWords(reading)] },
    };
  const { value, unit, u, coverage, method, notes } = reading;
  const [low, high] = reading.interval;
  const isUsed = isOfUse(reading);
  return {
    ...{ ...key, value, unit, plusMinus: coverage * u, low, high, standardUncertainty: u, method },
    state: isUsed ? 'measured' : 'too unsure',
    conditions: [...new Set([...(isUsed ? [] : [idleWords(reading)]), ...notes.map((note) => NOTE_WORDS[note])])],
  };
}

const COLUMNS = [
  ...['student', 'date', 'club', 'plays', 'reading', 'aspect', 'view', 'checkpoint'],
  ...['value', 'unit', 'plus or minus (95 %)', 'low (95 %)', 'high (95 %)', 'standard uncertainty', 'method'],
  ...['state', 'conditions'],
] as const;

/**
 * The same as the records of a CSV file (RFC 4180), without line ends; the first names the columns. A missing number is an
 * empty field. Numbers have a point and are not rounded.
 */
export function numbersAsCsv({ student, date, club, handedness, readings }: SwingNumbers): readonly string[] {
  const records = readings.map((row) => [
    ...[student, date, club, handedness, row.label, row.aspect, VIEW_LABELS[row.view]],
    ...[CHECKPOINT_LABELS[row.checkpoint], row.value, row.unit, row.plusMinus, row.low, row.high],
    ...[row.standardUncertainty, row.method, row.state, row.conditions.join(' ')],
  ]);
  return [COLUMNS, ...records].map((fields) => fields.map(csvField).join(','));
}

/**
 * A text that a spreadsheet would take for a formula gets an apostrophe in front, which such programs take for "this is text".
 * A number is ours and needs none, also below 0.
 */
function csvField(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const safe = /^\s*[=+\-@]|^[\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
