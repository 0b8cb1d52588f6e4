import type { Reading } from '../../model/reading.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../model/words.ts';
import { figuresOf, type Figures } from '../../measure/words/figures.ts';
import { formatBudget, idleWords, labelOf, missingWords, NOTE_WORDS } from '../../measure/words/format.ts';
import { isOfUse, readingsOfUse } from '../../measure/doubts/of-use.ts';
import { questionsAbout } from '../../measure/words/question-words.ts';
import { readSwing } from '../../measure/readings/read-swing.ts';
import { readSwingFile } from '../../swing-file/read-swing-file.ts';
import { bareSwingOf } from '../../model/swing.ts';
import type { Command } from '../command.ts';
import { BOOK_OPTION, placingOf } from '../placing-option.ts';
import { columns } from '../table.ts';

/** `baybook read SWING.json`: every reading of one swing. */
export const readCommand: Command = {
  name: 'read',
  summary: 'Read every number that the points of a swing file allow, each with its ±.',
  operands: { shown: 'SWING.json', least: 1, most: 1 },
  options: {
    book: BOOK_OPTION,
    json: { type: 'boolean', help: 'print JSON: {"readings": [...]}, with the missing ones and why' },
    budget: { type: 'boolean', help: 'say beside each reading what its ± is made of, the largest part first' },
  },
  details: [
    'In JSON u is the standard uncertainty and interval the 95 % interval, both in the unit of the value; ± in the table',
    'is half of that interval, and JSON has its parts as budget. Signs and units of each reading are in DEVELOPERS.md.',
  ],
  async run(args, { out }) {
    const [path = ''] = args.operands;
    const { swing } = await readSwingFile(path);
    const readings = readSwing(bareSwingOf(swing), placingOf(args));
    if (args.has('json')) out(JSON.stringify({ readings }));
    else {
      for (const question of questionsAbout(bareSwingOf(swing), placingOf(args))) out(`Note: ${question}`);
      for (const line of readingLines(readings, args.has('budget'))) out(line);
    }
  },
};

/** The readings as a table a checkpoint, the remarks once at the end. */
function readingLines(readings: readonly Reading[], withBudget: boolean): string[] {
  if (readings.length === 0) return ['Nothing to read: no frame of this swing is named yet.'];
  const figures = figuresOf([readingsOfUse(readings)]);
  const rows = readings.map((reading) => [
    VIEW_LABELS[reading.view],
    CHECKPOINT_LABELS[reading.checkpoint],
    labelOf(reading),
    ...numberAndWords(reading, figures),
    ...(withBudget ? [budgetWords(reading)] : []),
  ]);
  const notes = new Set(readingsOfUse(readings).flatMap((reading) => reading.notes));
  return [...columns(rows), ...(notes.size > 0 ? [''] : []), ...[...notes].map((note) => NOTE_WORDS[note])];
}

/** E.g. "placing ± 1.2 cm, depth ± 0.8 cm"; nothing where there is no number worth showing. */
function budgetWords(reading: Reading): string {
  if (reading.state === 'missing' || !isOfUse(reading)) return '';
  return formatBudget(reading)
    .map(({ words, text }) => `${words} ${text}`)
    .join(', ');
}

/** The number with its ± and what it means; or, where there is none worth showing, why. */
function numberAndWords(reading: Reading, figures: Figures): [string, string] {
  if (reading.state === 'missing') return ['', missingWords(reading)];
  if (!isOfUse(reading)) return ['', idleWords(reading)];
  return [figures.reading(reading).text, figures.meaning(reading) ?? ''];
}
