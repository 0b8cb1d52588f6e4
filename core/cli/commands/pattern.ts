import { resolve } from 'node:path';
import { openBook } from '../../book/open-book.ts';
import type { Book } from '../../book/open-book.ts';
import { linkLabel, linkMissWords } from '../../measure/words/chain-words.ts';
import { formatWanted, labelOf } from '../../measure/words/format.ts';
import { isolated } from '../../model/isolated.ts';
import { whyWithdrawn } from '../../measure/catalogue/where-read.ts';
import { keyOfLink } from '../../measure/pattern/chain.ts';
import { isWordsOnly } from '../../measure/pattern/pattern.ts';
import { withdrawnWords } from '../../measure/pattern/withdrawn-goals.ts';
import { AppError } from '../../model/errors.ts';
import type { Pattern, WantedRange } from '../../model/pattern.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../model/words.ts';
import { patternFileOf } from '../../parse/pattern.ts';
import { readPatternFile } from '../../pattern-file/read-pattern-file.ts';
import { writePatternFile } from '../../pattern-file/write-pattern-file.ts';
import type { Command, ParsedArguments } from '../command.ts';
import { requireBookIn } from '../placing-option.ts';

/** `baybook pattern show|export|import`: the coach's list of wanted ranges, as a text or a file. */
export const patternCommand: Command = {
  name: 'pattern',
  summary: "Show the book's pattern, write it to a file, or take one from a file.",
  operands: { shown: 'show | export FILE | import FILE', least: 1, most: 2 },
  options: {
    book: { type: 'string', value: 'DIR', help: 'the folder of the book; BAYBOOK_BOOK unless told' },
    json: { type: 'boolean', help: 'show prints a pattern file, the others where it is' },
  },
  details: [
    'Close Baybook first: one program at a time has a book open. export never replaces a file. import replaces the pattern',
    'of the book; export that one first to keep it. A pattern file is described by resources/pattern.schema.json.',
  ],
  async run(args, { out, say }) {
    const [what = '', file] = args.operands;
    const path = fileOf(what, file);
    // Before the book is opened: a file that is no pattern changes nothing.
    const read = what === 'import' && path !== null ? await readPatternFile(path) : null;
    const book = openBookOf(args);
    try {
      if (read !== null) book.writePattern(read);
      const { pattern, trouble } = book.readPattern();
      if (trouble !== null) say(trouble);
      if (path === null) show(pattern, args, out);
      else {
        if (what === 'export') await writePatternFile(path, pattern);
        if (args.has('json')) out(JSON.stringify({ book: book.folder, file: path }));
        else out(what === 'export' ? `Wrote the pattern to ${path}` : `${book.folder} has the pattern of ${path} now`);
      }
    } finally {
      book.close();
    }
  },
};

/** The file of export and import; null for show. */
function fileOf(what: string, file: string | undefined): string | null {
  if (what === 'show' && file === undefined) return null;
  if ((what === 'export' || what === 'import') && file !== undefined) return resolve(file);
  const wrong = ['show', 'export', 'import'].includes(what)
    ? what === 'show'
      ? 'show takes no file.'
      : `Say which file to ${what}.`
    : `"${what}" is not show, export or import.`;
  throw new AppError('bad-arguments', `${wrong} See: baybook pattern --help`);
}

function openBookOf(args: ParsedArguments): Book {
  const folder = args.text('book') ?? process.env['BAYBOOK_BOOK'] ?? '';
  if (folder === '') throw new AppError('bad-arguments', 'Say which book: --book DIR, or set BAYBOOK_BOOK.');
  requireBookIn(resolve(folder));
  return openBook(folder);
}

function show(pattern: Pattern, args: ParsedArguments, out: (line: string) => void): void {
  if (args.has('json')) {
    out(JSON.stringify(patternFileOf(pattern)));
    return;
  }
  out(`${isolated(pattern.name)}: ${pattern.about}`);
  for (const wanted of pattern.wanted) for (const line of wantedLines(wanted)) out(line);
  for (const chain of pattern.chains) {
    out(`Chain ${isolated(chain.name)} (${isolated(chain.basis)})`);
    for (const link of chain.links) {
      out(`  ${linkLabel(link)}, ${VIEW_LABELS[link.view].toLowerCase()}, ${linkMissWords(link)}: ${link.words}`);
      const why = whyWithdrawn(keyOfLink(link));
      if (why !== null) out(`    no longer read here: ${why}`);
    }
    out(`  leads to: ${chain.leadsTo}`);
  }
  out(`${String(pattern.tolerances.length)} tolerances; --json lists them`);
}

function wantedLines(wanted: WantedRange): readonly string[] {
  const { reading, aspect, views, checkpoints, clubs, words, basis, miss } = wanted;
  const name = reading === null ? 'Not measured yet' : labelOf({ id: reading, aspect });
  const where = [
    ...checkpoints.map((checkpoint) => CHECKPOINT_LABELS[checkpoint].toLowerCase()),
    ...views.map((view) => VIEW_LABELS[view].toLowerCase()),
    ...clubs.map(isolated),
  ];
  const withdrawn = withdrawnWords(wanted);
  const range = isWordsOnly(wanted) ? '' : `, ${formatWanted(wanted)}`;
  return [
    `${name}${where.length === 0 ? '' : ` (${where.join(', ')})`}${range}: ${words} (${basis})`,
    ...(withdrawn === null ? [] : [`  ${withdrawn}`]),
    ...(miss.low === '' ? [] : [`  missed low: ${miss.low}`]),
    ...(miss.high === '' ? [] : [`  missed high: ${miss.high}`]),
  ];
}
