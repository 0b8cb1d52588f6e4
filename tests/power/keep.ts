import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format } from 'oxfmt';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { honestyTable, powerTable, triedWords } from '../../core/report/verdict-worth.ts';
import type { VerdictWorth, WorthTable } from '../../core/report/verdict-worth.ts';

const ROOT = join(import.meta.dirname, '../..');
/** The tables of the page stand between these, of each reality its own. */
const marksOf = (reality: string) => {
  const which = reality === '1' ? '' : `, reality ${reality}`;
  return [`<!-- written by npm run power${which} -->`, `<!-- to here${which} -->`] as const;
};

/**
 * Keeps what was found for the program (resources) and for its readers (docs); of a `reality` other than 1 times what is stated
 * for readers only.
 */
export async function keepWorth(worth: VerdictWorth, reality: string): Promise<void> {
  if (reality === '1') writeFileSync(join(ROOT, 'resources/verdicts.json'), `${JSON.stringify(worth, null, 2)}\n`);
  const page = join(ROOT, 'docs/verdicts.md');
  const text = readFileSync(page, 'utf8');
  const marks = marksOf(reality);
  const [from, to] = marks.map((mark) => text.indexOf(mark));
  if (from === undefined || to === undefined || from < 0 || to < from)
    throw new Error('docs/verdicts.md has lost its marks');
  const words = reality === '1' ? triedWords(worth) : realityWords(worth, reality);
  const tables = [words, table(honestyTable(worth)), table(powerTable(worth))].join('\n\n');
  const written = `${text.slice(0, from)}${marks[0]}\n\n${tables}\n\n${text.slice(to)}`;
  writeFileSync(page, (await format(page, written)).code);
}

function realityWords({ date, pairs }: VerdictWorth, reality: string): string {
  return `Tried on ${dayInWords(date)}: ${String(pairs)} pairs, everything drawn ${reality} times as far off as the program states.`;
}

function table({ head, rows }: WorthTable): string {
  return [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}
