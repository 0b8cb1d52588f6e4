import { CHECKPOINT_LABELS, type Checkpoint } from '../model/words.ts';
import { byClearness } from './changed.ts';
import type { ShownComparison } from './shown-reading.ts';

/**
 * What a student reads first on a still of then and now: the clearest change with its numbers, or that nothing changed for
 * sure. null where nothing was compared.
 */
export function headlineOf(comparisons: readonly ShownComparison[], checkpoint: Checkpoint): string | null {
  const where = CHECKPOINT_LABELS[checkpoint].toLowerCase();
  const found = (verdict: string): ShownComparison | undefined =>
    byClearness(comparisons.filter(({ comparison }) => comparison.verdict === verdict))[0];
  const first = found('changed') ?? found('worth a look');
  if (first !== undefined)
    return `${first.label} at ${where}: ${bare(first.then)} \u2192 ${bare(first.now)}, ${first.verdict}`;
  return comparisons.length === 0 ? null : `Nothing changed for sure at ${where}`;
}

/** "105\u00b0 \u00b1 3\u00b0" without its \u00b1: "105\u00b0"; "\u22123.4 \u00b1 1.2 cm": "\u22123.4 cm". */
function bare(text: string): string {
  const [, value = text, unit] = /^(\S+) \u00b1 \S+(?: (.+))?$/.exec(text) ?? [];
  return unit === undefined ? value : `${value} ${unit}`;
}
