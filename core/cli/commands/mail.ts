import { writeWholeFile } from '../../files/write-whole-file.ts';
import { makeLesson, makeMail } from '../../jobs/lesson-files.ts';
import { DEFAULT_MAIL_BYTES } from '../../lesson-page/mail-budget.ts';
import { AppError } from '../../model/errors.ts';
import { USUAL_LIBRARY } from '../../model/lesson-page.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import type { Command, ParsedArguments } from '../command.ts';
import { LESSON_OPTIONS, lessonOf, outOf, paperOf } from '../lesson-option.ts';

/** `baybook mail NOW.json --out F.eml`: the lesson as a mail that was not sent yet. */
export const mailCommand: Command = {
  name: 'mail',
  summary: 'Write the lesson as a mail draft: text and HTML, stills inside, the page as PDF. Nothing is sent.',
  operands: { shown: 'NOW.json', least: 1, most: 1 },
  options: {
    ...LESSON_OPTIONS,
    most: {
      type: 'string',
      value: 'BYTES',
      help: `most bytes of all that is attached, before base64; ${DEFAULT_MAIL_BYTES} unless told`,
    },
    json: { type: 'boolean', help: 'print the written file as JSON' },
  },
  details: [
    'Open the .eml in a mail program: it is an unsent message without sender or receiver. Stills are made smaller where the',
    'mail would be too large.',
  ],
  async run(args, { out, say, signal }) {
    const path = outOf(args, 'F.eml');
    const paper = paperOf(args);
    const mostBytes = mostOf(args);
    const ffmpeg = await findFfmpeg();
    const run = { signal, report: () => undefined };
    const content = await makeLesson(await lessonOf(args, ffmpeg, say), ffmpeg, run);
    const wishes = { template: USUAL_LIBRARY.letter, paper, mostBytes, talk: null, made: new Date() };
    const { bytes, notes } = await makeMail(content, wishes, run);
    await writeWholeFile(path, bytes);
    for (const note of notes) say(note);
    if (args.has('json')) out(JSON.stringify({ file: path, bytes: bytes.length, stills: content.pictures.length }));
    else out(`${path}: ${Math.ceil(bytes.length / 1000)} kB, ${content.pictures.length} stills`);
  },
};

/** A page and a small still need some room. */
const LEAST_MOST = 200_000;

function mostOf(args: ParsedArguments): number {
  const text = args.text('most') ?? String(DEFAULT_MAIL_BYTES);
  const most = /^\d{1,12}$/.test(text) ? Number(text) : NaN;
  if (!(most >= LEAST_MOST))
    throw new AppError('bad-arguments', `--most takes whole bytes from ${LEAST_MOST} on, not "${text}".`);
  return most;
}
