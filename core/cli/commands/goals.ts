import { resolve } from 'node:path';
import { openBook } from '../../book/open-book.ts';
import type { Book } from '../../book/open-book.ts';
import { linkLabel, linkMissWords } from '../../measure/words/chain-words.ts';
import { formatWanted, labelOf } from '../../measure/words/format.ts';
import { isolated } from '../../model/isolated.ts';
import { whyWithdrawn } from '../../measure/catalogue/where-read.ts';
import { keyOfLink } from '../../measure/goals/chain.ts';
import { isWordsOnly } from '../../measure/goals/goals.ts';
import { withdrawnWords } from '../../measure/goals/withdrawn-goals.ts';
import { AppError } from '../../model/errors.ts';
import type { Goals, WantedRange } from '../../model/goals.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../model/words.ts';
import { goalsFileOf } from '../../parse/goals.ts';
import { readGoalsFile } from '../../goals-file/read-goals-file.ts';
import { writeGoalsFile } from '../../goals-file/write-goals-file.ts';
import type { Command, ParsedArguments } from '../command.ts';
import { requireBookIn } from '../placing-option.ts';
import { UNITS_OPTION, showUnitsOf } from '../units-option.ts';

/** `baybook goals show|export|import`: the coach's list of wanted ranges, as a text or a file. */
export const goalsCommand: Command = {
  name: 'goals',
  summary: "Show the book's goals, write them to a file, or take those of a file.",
  operands: { shown: 'show | export FILE | import FILE', least: 1, most: 2 },
  options: {
    book: { type: 'string', value: 'DIR', help: 'the folder of the book; BAYBOOK_BOOK unless told' },
    units: UNITS_OPTION,
    json: { type: 'boolean', help: 'show prints a goals file, the others where it is' },
  },
  details: [
    'Close Baybook first: one program at a time has a book open. export never replaces a file. import replaces the goals',
    'of the book; export those first to keep them. A goals file is described by resources/goals.schema.json.',
  ],
  async run(args, { out, say }) {
    showUnitsOf(args);
    const [what = '', file] = args.operands;
    const path = fileOf(what, file);
    // Before the book is opened: a file that holds no goals changes nothing.
    const read = what === 'import' && path !== null ? await readGoalsFile(path) : null;
    const book = openBookOf(args);
    try {
      if (read !== null) book.writeGoals(read);
      const { goals, trouble } = book.readGoals();
      if (trouble !== null) say(trouble);
      if (path === null) show(goals, args, out);
      else {
        if (what === 'export') await writeGoalsFile(path, goals);
        if (args.has('json')) out(JSON.stringify({ book: book.folder, file: path }));
        else out(what === 'export' ? `Wrote the goals to ${path}` : `${book.folder} has the goals of ${path} now`);
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
  throw new AppError('bad-arguments', `${wrong} See: baybook goals --help`);
}

function openBookOf(args: ParsedArguments): Book {
  const folder = args.text('book') ?? process.env['BAYBOOK_BOOK'] ?? '';
  if (folder === '') throw new AppError('bad-arguments', 'Say which book: --book DIR, or set BAYBOOK_BOOK.');
  requireBookIn(resolve(folder));
  return openBook(folder);
}

function show(goals: Goals, args: ParsedArguments, out: (line: string) => void): void {
  if (args.has('json')) {
    out(JSON.stringify(goalsFileOf(goals)));
    return;
  }
  out(`${isolated(goals.name)}: ${goals.about}`);
  for (const wanted of goals.wanted) for (const line of wantedLines(wanted)) out(line);
  for (const chain of goals.chains) {
    out(`Chain ${isolated(chain.name)} (${isolated(chain.basis)})`);
    for (const link of chain.links) {
      out(`  ${linkLabel(link)}, ${VIEW_LABELS[link.view].toLowerCase()}, ${linkMissWords(link)}: ${link.words}`);
      const why = whyWithdrawn(keyOfLink(link));
      if (why !== null) out(`    no longer read here: ${why}`);
    }
    out(`  leads to: ${chain.leadsTo}`);
  }
  out(`${String(goals.tolerances.length)} tolerances; --json lists them`);
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
    ...(miss.low === '' ? [] : [`  too low: ${miss.low}`]),
    ...(miss.high === '' ? [] : [`  too high: ${miss.high}`]),
  ];
}
