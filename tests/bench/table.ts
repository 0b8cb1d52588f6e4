import type { Figure } from './figures.ts';

/** The figures as a table of text: one line a figure, its values side by side for all clips would be too wide. */
export function figureTable(figures: readonly Figure[]): string {
  const rows = figures.map(({ name, clip, value, unit, bar, ok }) => [
    name,
    clip,
    value === null ? 'not taken' : String(value),
    unit,
    bar ?? '',
    bar === null && ok ? '' : ok ? 'ok' : 'MISSED',
  ]);
  const lines = [['figure', 'clip', 'value', 'unit', 'must be', ''], ...rows];
  const widths = (lines[0] ?? []).map((_, column) => Math.max(...lines.map((line) => line[column]?.length ?? 0)));
  const isNumber = (column: number): boolean => column === 2;
  return lines
    .map((line) =>
      line
        .map((cell, column) =>
          isNumber(column) ? cell.padStart(widths[column] ?? 0) : cell.padEnd(widths[column] ?? 0),
        )
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
