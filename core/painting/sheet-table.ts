import type { Box } from './box.ts';
import { fontOf } from './looks.ts';
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

function columnWidths(
  rows: readonly (readonly TableCell[])[],
  measures: TableMeasures,
  measureText: MeasureText,
): readonly number[] {
  const natural: number[] = [];
  for (const row of rows)
    for (const [index, cell] of row.entries()) {
      const width = measureText(keptTogether(cell.text), fontOf(cell.style.size, cell.style.weight));
      natural[index] = Math.max(natural[index] ?? 0, width);
    }
  const values = natural.slice(1);
  const room = measures.width - values.length * measures.gap;
  const wanted = values.reduce((sum, width) => sum + width, 0);
  const label = natural[0] ?? 0;
  const given = label + wanted <= room ? wanted : Math.min(wanted, room * MOST_FOR_VALUES);
  const shrink = wanted === 0 ? 0 : given / wanted;
  return [room - given, ...values.map((width) => width * shrink)];
}
