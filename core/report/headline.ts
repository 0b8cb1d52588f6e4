import { VERDICT_WORDS } from '../measure/words/words.ts';
import { lowered, say } from '../model/say.ts';
import { CHECKPOINT_LABELS, type Checkpoint } from '../model/words.ts';
import type { Verdict } from '../model/reading.ts';
import { byClearness } from './changed.ts';
import type { ShownComparison } from './shown-reading.ts';

/** More are not read at a glance. */
export const MOST_HEADLINE_WORDS = 12;

/**
 * What a student reads first on a still of then and now: the clearest change with its numbers, or that nothing changed for
 * sure. null where nothing was compared.
 */
export function headlineOf(comparisons: readonly ShownComparison[], checkpoint: Checkpoint): string | null {
  const where = lowered(CHECKPOINT_LABELS[checkpoint]);
  const found = (verdict: Verdict): ShownComparison | undefined =>
    byClearness(comparisons.filter(({ comparison }) => comparison.verdict === verdict))[0];
  const first = found('changed') ?? found('worth a look');
  if (first !== undefined)
    return say`${first.label} at ${where}: ${bareNumber(first.then)} → ${bareNumber(first.now)}, ${first.verdict}`;
  return comparisons.length === 0 ? null : say`Nothing changed for sure at ${where}`;
}

/**
 * The same for a phone, in at most MOST_HEADLINE_WORDS words: what the facts below it say anyway is left out first, then what
 * the first line says. `first`: the clearest change; null where nothing changed for sure.
 */
export function phoneHeadline(first: ShownComparison | null, isCompared: boolean, checkpoint: Checkpoint): string {
  const where = lowered(CHECKPOINT_LABELS[checkpoint]);
  if (first === null) return isCompared ? say`Nothing changed for sure at ${where}` : say`Then and now at ${where}`;
  const { verdict } = first.comparison;
  const label = shortLabel(first.label);
  const number = fromToWords(first.then, first.now);
  return inFewWords({ label, where, number, verdict: VERDICT_WORDS[verdict] });
}

/** As much of it as MOST_HEADLINE_WORDS words hold; label and number always. `verdict`: empty where there is none. */
export function inFewWords(parts: { readonly [part in 'label' | 'where' | 'number' | 'verdict']: string }): string {
  const { label, where, number } = parts;
  const verdict = parts.verdict === '' ? '' : `, ${parts.verdict}`;
  const ways = [say`${label} at ${where}: ${number}${verdict}`, `${label}: ${number}${verdict}`];
  return ways.find((way) => countOfWords(way) <= MOST_HEADLINE_WORDS) ?? `${label}: ${number}`;
}

/** Words and numbers; an arrow or a sign alone is none. */
export function countOfWords(text: string): number {
  return text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}

/** "Trail knee, change from address" as few words: "Trail knee since address". */
export function shortLabel(label: string): string {
  const change = say`${''}, change from address`;
  return label.endsWith(change) ? say`${label.slice(0, -change.length)} since address` : label;
}

/** "105\u00b0 \u2192 91\u00b0"; a unit that stands behind both stands once: "\u22123.4 \u2192 2.0 cm". */
export function fromToWords(then: string, now: string): string {
  const [one, other] = [bareNumber(then), bareNumber(now)];
  const unit = / .+$/.exec(other)?.[0] ?? '';
  const from = unit !== '' && one.endsWith(unit) ? one.slice(0, -unit.length) : one;
  return `${from} \u2192 ${other}`;
}

/** "105\u00b0 \u00b1 3\u00b0" without its \u00b1: "105\u00b0"; "\u22123.4 \u00b1 1.2 cm": "\u22123.4 cm". */
export function bareNumber(text: string): string {
  const [, value = text, unit] = /^(\S+) \u00b1 \S+(?: (.+))?$/.exec(text) ?? [];
  return unit === undefined ? value : `${value} ${unit}`;
}
