import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format, resolveConfig } from 'prettier';
import { honestyTable, powerTable, triedWords } from '../../core/report/verdict-worth.ts';
import type { VerdictWorth, WorthTable } from '../../core/report/verdict-worth.ts';

const ROOT = join(import.meta.dirname, '../..');
/** The tables of the page stand between these. */
const MARKS = ['<!-- written by npm run power -->', '<!-- to here -->'] as const;

/** Keeps what was found for the program (resources) and for its readers (docs). */
export async function keepWorth(worth: VerdictWorth): Promise<void> {
  writeFileSync(join(ROOT, 'resources/verdicts.json'), `${JSON.stringify(worth, null, 2)}\n`);
  const page = join(ROOT, 'docs/verdicts.md');
  const text = readFileSync(page, 'utf8');
  const [from, to] = MARKS.map((mark) => text.indexOf(mark));
  if (from === undefined || to === undefined || from < 0 || to < from)
    throw new Error('docs/verdicts.md has lost its marks');
  const tables = [triedWords(worth), table(honestyTable(worth)), table(powerTable(worth))].join('\n\n');
  const written = `${text.slice(0, from)}${MARKS[0]}\n\n${tables}\n\n${text.slice(to)}`;
  const style = await resolveConfig(page);
  writeFileSync(page, await format(written, { ...style, filepath: page }));
}

function table({ head, rows }: WorthTable): string {
  return [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}
