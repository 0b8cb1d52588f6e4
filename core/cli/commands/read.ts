import type { MeasuredReading, Reading } from '../../model/reading.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../model/words.ts';
import { isOfUse } from '../../measure/doubts/of-use.ts';
import { EMPTY_GOALS } from '../../measure/goals/goals.ts';
import { formatBudget, NOTE_WORDS } from '../../measure/words/format.ts';
import { reportOf, type LessonReport } from '../../report/lesson-report.ts';
import { shownReading, smallestChangeWords, unreadReading, type ShownReading } from '../../report/shown-reading.ts';
import { readSwingFile } from '../../swing-file/read-swing-file.ts';
import { bareSwingOf } from '../../model/swing.ts';
import type { Command } from '../command.ts';
import { BOOK_OPTION, placingOf } from '../placing-option.ts';
import { columns } from '../table.ts';
import { UNITS_OPTION, showUnitsOf } from '../units-option.ts';

/** `baybook read SWING.json`: every reading of one swing. */
export const readCommand: Command = {
  name: 'read',
  summary: 'Read every number that the points of a swing file allow, each with its ±.',
  operands: { shown: 'SWING.json', least: 1, most: 1 },
  options: {
    book: BOOK_OPTION,
    units: UNITS_OPTION,
    json: { type: 'boolean', help: 'print JSON: {"readings": [...]}, with the missing ones and why' },
    smallest: { type: 'boolean', help: 'say beside each reading which change between two lessons would show' },
    budget: { type: 'boolean', help: 'say beside each reading what its ± is made of, the largest part first' },
  },
  details: [
    'In JSON u is the standard uncertainty and interval the 95 % interval, both in the unit of the value; ± in the table',
    'is half of that interval, and JSON has its parts as budget. Signs and units of each reading are in DEVELOPERS.md.',
  ],
  async run(args, { out }) {
    showUnitsOf(args);
    const [path = ''] = args.operands;
    const { swing } = await readSwingFile(path);
    const report = reportOf({ now: bareSwingOf(swing), then: null, goals: EMPTY_GOALS, placing: placingOf(args) });
    if (args.has('json')) out(JSON.stringify({ readings: report.now }));
    else
      for (const line of [
        ...report.questions.map((question) => `Note: ${question}`),
        ...readingLines(report, { budget: args.has('budget'), smallest: args.has('smallest') }),
      ])
        out(line);
  },
};

/** What else stands beside a number. */
interface Asked {
  readonly budget: boolean;
  readonly smallest: boolean;
}

/** The readings as a table a checkpoint, the remarks once at the end. */
function readingLines({ now: readings, figures, source }: LessonReport, asked: Asked): string[] {
  if (readings.length === 0) return ['Nothing to read: no frame of this swing is named yet.'];
  const rows = readings.map((reading) => [
    VIEW_LABELS[reading.view],
    CHECKPOINT_LABELS[reading.checkpoint],
    ...(isNumber(reading)
      ? numberAndWords(shownReading(reading, figures), asked, source.placing)
      : [unreadReading(reading).label, '', unreadReading(reading).words]),
  ]);
  const notes = new Set(readings.filter(isNumber).flatMap((reading) => reading.notes));
  return [...columns(rows), ...(notes.size > 0 ? [''] : []), ...[...notes].map((note) => NOTE_WORDS[note])];
}

/** Whether there is a number worth showing. */
function isNumber(reading: Reading): reading is MeasuredReading {
  return reading.state === 'measured' && isOfUse(reading);
}

function numberAndWords(
  { reading, label, number, meaning, question }: ShownReading,
  asked: Asked,
  placing: LessonReport['source']['placing'],
): string[] {
  const smallest = asked.smallest ? smallestChangeWords(reading, placing) : null;
  const words = [meaning, question, smallest].filter((each) => each !== null).join('. ');
  const budget = formatBudget(reading).map((part) => `${part.words} ${part.text}`);
  return [label, number, words, ...(asked.budget ? [budget.join(', ')] : [])];
}
