import { compareSwings } from '../../compare/compare-swings.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../model/words.ts';
import { readSwingFile } from '../../swing-file/read-swing-file.ts';
import { bareSwingOf } from '../../model/swing.ts';
import { reportOf } from '../../report/lesson-report.ts';
import { verdictWithReason } from '../../report/shown-reading.ts';
import { honestyTable, powerTable, triedWords, VERDICT_WORTH, type WorthTable } from '../../report/verdict-worth.ts';
import type { Command } from '../command.ts';
import { BOOK_OPTION, placingOf } from '../placing-option.ts';
import { GOALS_OPTION, goalsOf } from '../goals-option.ts';
import { BESIDES_OPTIONS, withBesides } from '../besides-option.ts';
import { columns } from '../table.ts';
import { UNITS_OPTION, showUnitsOf } from '../units-option.ts';

/** `baybook compare THEN.json NOW.json`: what changed, what did not. */
export const compareCommand: Command = {
  name: 'compare',
  summary: 'Compare two swing files reading by reading: the difference, its ±, and whether anything changed.',
  operands: { shown: 'THEN.json NOW.json', least: 2, most: 2 },
  options: {
    book: BOOK_OPTION,
    goals: GOALS_OPTION,
    ...BESIDES_OPTIONS,
    worth: { type: 'boolean', help: 'say after it how often such verdicts are right, from trials' },
    units: UNITS_OPTION,
    json: { type: 'boolean', help: 'print JSON: {"comparisons": [...], "warnings": [...]}' },
  },
  details: [
    'difference = now - then. changed: chosen for the stills or a link of a chain, and larger than its 95 % interval.',
    'worth a look: not asked about, but it stands out among all that was compared (false-discovery rate 5 %).',
    'Two days are two lessons: --then-also and --now-also name their other swings, and means are compared.',
    "no change: surely within the tolerance of the goals. can't tell: neither. What cameras set up anew do is in the ±.",
  ],
  async run(args, { out }) {
    showUnitsOf(args);
    const [thenPath = '', nowPath = ''] = args.operands;
    const then = await withBesides(bareSwingOf((await readSwingFile(thenPath)).swing), args, 'then-also');
    const now = await withBesides(bareSwingOf((await readSwingFile(nowPath)).swing), args, 'now-also');
    const goals = await goalsOf(args);
    if (args.has('json')) {
      const { comparisons, warnings } = compareSwings(then, now, goals, placingOf(args));
      out(JSON.stringify({ comparisons, warnings }));
      return;
    }
    const report = reportOf({ then, now, goals, placing: placingOf(args) });
    const { swings } = report;
    for (const sentence of [...report.questions, ...report.warnings, ...(swings === null ? [] : [swings])])
      out(`Note: ${sentence}`);
    const { idleComparisons: idle } = report;
    if (report.comparisons.length === 0 && idle === 0) out('The two swings have no reading in common.');
    const rows = report.comparisons.map((shown) => [
      VIEW_LABELS[shown.comparison.view],
      CHECKPOINT_LABELS[shown.comparison.checkpoint],
      ...[shown.label, withMean(shown.then, shown.means.then), withMean(shown.now, shown.means.now), shown.difference],
      verdictWithReason(shown),
    ]);
    for (const line of columns(rows)) out(line);
    if (idle > 0)
      out(
        `Left out, because one of the two numbers tells nothing ("read" says why): ${idle === 1 ? '1 reading' : `${idle} readings`}.`,
      );
    if (args.has('worth')) for (const line of worthLines()) out(line);
  },
};

const withMean = (number: string, mean: string | null): string => (mean === null ? number : `${number} (${mean})`);

function worthLines(): readonly string[] {
  const table = ({ head, rows }: WorthTable) => columns([head, ...rows].map((cells) => [...cells]));
  return [
    '',
    triedWords(VERDICT_WORTH),
    '',
    ...table(honestyTable(VERDICT_WORTH)),
    '',
    ...table(powerTable(VERDICT_WORTH)),
  ];
}
