import { EMPTY_GOALS } from '../../measure/goals/goals.ts';
import { AppError } from '../../model/errors.ts';
import { bareSwingOf } from '../../model/swing.ts';
import { reportOf } from '../../report/lesson-report.ts';
import { numbersAsCsv, numbersOf } from '../../report/numbers.ts';
import { readSwingFile } from '../../swing-file/read-swing-file.ts';
import type { Command } from '../command.ts';
import { remindOfConsent } from '../consent.ts';
import { BOOK_OPTION, placingOf } from '../placing-option.ts';

/** `baybook numbers SWING.json`: every reading, for a spreadsheet or another program. */
export const numbersCommand: Command = {
  name: 'numbers',
  summary: 'Print every reading of a swing file with its unit, ± and conditions, as CSV or JSON.',
  operands: { shown: 'SWING.json', least: 1, most: 1 },
  options: {
    csv: { type: 'boolean', help: 'print CSV (RFC 4180), one record per reading; so it is unless told' },
    json: { type: 'boolean', help: 'print JSON: {"format": "baybook-numbers", ..., "readings": [...]}' },
    book: BOOK_OPTION,
  },
  details: [
    'Numbers are not rounded. "plus or minus" is half of the 95 % interval, in the unit of the value. A missing number is an',
    'empty field, and conditions say why. A text that a spreadsheet would take for a formula gets an apostrophe in front.',
  ],
  async run(args, { out, say }) {
    const [path = ''] = args.operands;
    if (args.has('csv') && args.has('json')) throw new AppError('bad-arguments', 'Choose --csv or --json, not both.');
    const { swing } = await readSwingFile(path);
    remindOfConsent([swing], say);
    const now = bareSwingOf(swing);
    const report = reportOf({ now, then: null, goals: EMPTY_GOALS, placing: placingOf(args) });
    const numbers = numbersOf(now, report.now);
    if (args.has('json')) out(JSON.stringify(numbers));
    // With the end that whoever prints a line gives it, each record ends as RFC 4180 has it.
    else for (const record of numbersAsCsv(numbers)) out(`${record}\r`);
  },
};
