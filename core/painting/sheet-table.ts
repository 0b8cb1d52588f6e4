import type { Box } from './box.ts';
import { fontOf } from './styles.ts';
import { placeText, type PlacedText, type TextStyle } from './placed.ts';
import { keptTogether, type MeasureText } from './text-wrap.ts';

export interface TableCell {
  readonly text: string;
  readonly style: TextStyle;
}

/** A table set into a column: texts, hairlines between its rows, and the first pixel row below it. */
export interface PlacedTable {
  readonly texts: readonly PlacedText[];
  readonly rules: readonly Box[];
  readonly bottom: number;
}

export interface TableMeasures {
  readonly x: number;
  readonly top: number;
  readonly width: number;
  /** Between columns. */
  readonly gap: number;
  /** Above and below the text of each row. */
  readonly pad: number;
  readonly rule: number;
}

/** The columns after the first never take more than this part of the table together; they wrap instead. */
const MOST_FOR_VALUES = 0.66;
/** ... unless their words would break, when they may take this part. */
const MOST_WHEN_CRAMPED = 0.78;

/**
 * Sets rows of equal length: the first column to the left, the others to the right, each as wide as its widest text. What
 * does not fit is wrapped inside its cell, so no text is cut and none meets its neighbour.
 */
export function placeTable(
  rows: readonly (readonly TableCell[])[],
  measures: TableMeasures,
  measureText: MeasureText,
): PlacedTable {
  const widths = columnWidths(rows, measures, measureText);
  const texts: PlacedText[] = [];
  const rules: Box[] = [];
  let top = measures.top;
  for (const [rowIndex, row] of rows.entries()) {
    if (rowIndex > 0) rules.push({ x: measures.x, y: top, width: measures.width, height: measures.rule });
    let x = measures.x;
    let bottom = top;
    for (const [index, cell] of row.entries()) {
      const width = widths[index] ?? 0;
      const align = index === 0 ? 'left' : 'right';
      const placed = placeText(cell.text, cell.style, { x, top: top + measures.pad, width, align }, measureText);
      texts.push(...placed.texts);
      bottom = Math.max(bottom, placed.bottom);
      x += width + measures.gap;
    }
    top = bottom + measures.pad;
  }
  return { texts, rules, bottom: top };
}

/**
 * Widths of the columns. When all fits, every value column gets the width of its widest text and a share of the
 * spare room. Else the value columns give way together, each down to its widest word at most, so that words stay whole while they can.
 */
function columnWidths(
  rows: readonly (readonly TableCell[])[],
  measures: TableMeasures,
  measureText: MeasureText,
): readonly number[] {
  const whole: number[] = [];
  const word: number[] = [];
  for (const row of rows)
    for (const [index, { text, style }] of row.entries()) {
      const measure = (part: string) => measureText(part, fontOf(style.size, style.weight));
      whole[index] = Math.max(whole[index] ?? 0, measure(keptTogether(text)));
      word[index] = Math.max(word[index] ?? 0, ...keptTogether(text).split(' ').map(measure));
    }
  const room = measures.width - (whole.length - 1) * measures.gap;
  const values = whole.slice(1);
  const most = sum(values);
  if (sum(whole) <= room) {
    const spare = Math.max(0, Math.min(room - sum(whole), room * MOST_FOR_VALUES - most)) / values.length;
    return [room - most - spare * values.length, ...values.map((value) => value + spare)];
  }
  const words = word.slice(1);
  const least = sum(words);
  const given = Math.max(Math.min(most, room * MOST_FOR_VALUES), Math.min(least, room * MOST_WHEN_CRAMPED));
  const widths = values.map((value, index) => {
    const smallest = words[index] ?? 0;
    if (given <= least) return least === 0 ? 0 : (smallest * given) / least;
    return most === least ? value : smallest + ((value - smallest) * (given - least)) / (most - least);
  });
  return [room - given, ...widths];
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
