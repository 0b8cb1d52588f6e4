import { say } from '../model/say.ts';
import type { ReadingKey } from '../model/reading.ts';
import { sameReading } from '../model/reading.ts';
import type { CellReading, CellSide, ReportCell } from './cell.ts';
import type { ShownComparison } from './shown-reading.ts';

/** One line of a cell or a still: a value with what it means and its change since address; or a change without a value. */
export interface ShownLine {
  readonly key: ReadingKey;
  readonly label: string;
  readonly number: string;
  readonly meaning: string | null;
  /** E.g. "+10.2° ± 2.4° from address"; null where there is none. */
  readonly change: string | null;
  readonly questions: readonly string[];
  /** Of the value, then of its change. */
  readonly differs: readonly ShownComparison[];
}

/** What stands on the still and in the sheet's cell, line by line. */
export function linesOf({ readings }: Pick<CellSide, 'readings'>): readonly ShownLine[] {
  const shown = readings.filter(({ isOnStill }) => isOnStill);
  const values = shown.filter(({ reading }) => reading.aspect === 'value');
  const changes = shown.filter(({ reading }) => reading.aspect === 'change');
  const alone = changes.filter((change) => values.every(({ reading }) => reading.id !== change.reading.id));
  const changeOf = (value: CellReading) => changes.find(({ reading }) => reading.id === value.reading.id) ?? null;
  return [...values.map((value) => lineOf(value, changeOf(value))), ...alone.map((change) => lineOf(change, null))];
}

function lineOf(first: CellReading, change: CellReading | null): ShownLine {
  const { id, aspect, view, checkpoint } = first.reading;
  const both = change === null ? [first] : [first, change];
  return {
    key: { id, aspect, view, checkpoint },
    ...{ label: first.label, number: first.number, meaning: first.meaning },
    change: change === null ? null : say`${change.number} from address`,
    questions: [...new Set(both.flatMap(({ question }) => question ?? []))],
    differs: both.flatMap(({ differs }) => differs ?? []),
  };
}

/** One reading of then and now in one row; null where one of them does not have it. */
export interface PairedLine {
  readonly label: string;
  readonly then: ShownLine | null;
  readonly now: ShownLine | null;
}

/** The lines of then and now, row by row: in the order of now, after them what only then has. */
export function pairedLines({ then, now }: Pick<ReportCell, 'then' | 'now'>): readonly PairedLine[] {
  const [before, after] = [linesOf(then), linesOf(now)];
  const same = (line: ShownLine, all: readonly ShownLine[]) =>
    all.find(({ key }) => sameReading(key, line.key)) ?? null;
  return [
    ...after.map((line) => ({ label: line.label, then: same(line, before), now: line })),
    ...before
      .filter((line) => same(line, after) === null)
      .map((line) => ({ label: line.label, then: line, now: null })),
  ];
}

/** What of a cell does not stand there, as a sentence or two for the coach; null where nothing is left out. */
export function leftOutWords({ readings, idle }: CellSide): string | null {
  const left = readings.filter(({ isOnStill }) => !isOnStill).length;
  const words = [
    ...(left === 0 ? [] : [left === 1 ? say`1 more is not on the still.` : say`${left} more are not on the still.`]),
    ...(idle.length === 0 ? [] : [say`${idle.length} not usable here: the bench says why.`]),
  ];
  return words.length === 0 ? null : words.join(' ');
}
