import { compareSwings } from '../../compare/compare-swings.ts';
import { figuresOf } from '../../measure/words/figures.ts';
import { labelOf, VERDICT_WORDS } from '../../measure/words/format.ts';
import { comparisonsOfUse } from '../../measure/doubts/of-use.ts';
import { questionsAbout } from '../../measure/words/question-words.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../model/words.ts';
import { readSwingFile } from '../../swing-file/read-swing-file.ts';
import { bareSwingOf } from '../../model/swing.ts';
import type { Command } from '../command.ts';
import { BOOK_OPTION, placingOf } from '../placing-option.ts';
import { PATTERN_OPTION, patternOf } from '../pattern-option.ts';
import { columns } from '../table.ts';

/** `baybook compare THEN.json NOW.json`: what moved, what held. */
export const compareCommand: Command = {
  name: 'compare',
  summary: 'Compare two swing files reading by reading: the difference, its ±, and whether anything moved.',
  operands: { shown: 'THEN.json NOW.json', least: 2, most: 2 },
  options: {
    book: BOOK_OPTION,
    pattern: PATTERN_OPTION,
    json: { type: 'boolean', help: 'print JSON: {"comparisons": [...], "warnings": [...]}' },
  },
  details: [
    'difference = now - then. moved: larger than its 95 % interval. held: surely within the tolerance of the pattern.',
    "can't tell: neither. The part of two camera set-ups is in the ±.",
  ],
  async run(args, { out }) {
    const [thenPath = '', nowPath = ''] = args.operands;
    const then = bareSwingOf((await readSwingFile(thenPath)).swing);
    const now = bareSwingOf((await readSwingFile(nowPath)).swing);
    const { comparisons, warnings } = compareSwings(then, now, await patternOf(args), placingOf(args));
    if (args.has('json')) {
      out(JSON.stringify({ comparisons, warnings }));
      return;
    }
    for (const [name, swing] of [
      ['Then', then],
      ['Now', now],
    ] as const)
      for (const question of questionsAbout(swing, placingOf(args))) out(`Note: ${name}, ${question}`);
    for (const warning of warnings) out(`Note: ${warning}`);
    const shown = comparisonsOfUse(comparisons);
    const figures = figuresOf([], shown);
    if (shown.length === 0) out('The two swings have no reading in common.');
    for (const line of columns(
      shown.map((one) => {
        const { then, now, difference } = figures.comparison(one);
        return [
          VIEW_LABELS[one.view],
          CHECKPOINT_LABELS[one.checkpoint],
          labelOf(one),
          then.text,
          now.text,
          difference.text,
          VERDICT_WORDS[one.verdict],
        ];
      }),
    ))
      out(line);
  },
};
