import { writeWholeFile } from '../../files/write-whole-file.ts';
import { makeLesson, makePdf } from '../../jobs/lesson-files.ts';
import { findFfmpeg } from '../../video/process/find-ffmpeg.ts';
import type { Command } from '../command.ts';
import { LESSON_OPTIONS, lessonOf, outOf, paperOf } from '../lesson-option.ts';

/** `baybook page NOW.json --out F.pdf`: what the lesson says, on paper. */
export const pageCommand: Command = {
  name: 'page',
  summary: 'Write the lesson page of a swing file as PDF: findings, stills, what changed, key thoughts, drills.',
  operands: { shown: 'NOW.json', least: 1, most: 1 },
  options: { ...LESSON_OPTIONS, json: { type: 'boolean', help: 'print the written file as JSON' } },
  details: [
    'The words are those of the lesson page in the file. Text can be selected, fonts are embedded, and the file is tagged for',
    'whoever hears it read. With --then it opens with what that lesson asked for, and whether it changed.',
  ],
  async run(args, { out, say, signal }) {
    const path = outOf(args, 'F.pdf');
    const paper = paperOf(args);
    const ffmpeg = await findFfmpeg();
    const run = { signal, report: () => undefined };
    const content = await makeLesson(await lessonOf(args, ffmpeg, say), ffmpeg, run);
    const bytes = await makePdf(content, paper, new Date(), run);
    await writeWholeFile(path, bytes);
    if (args.has('json')) out(JSON.stringify({ file: path, bytes: bytes.length, stills: content.pictures.length }));
    else out(`${path}: ${Math.ceil(bytes.length / 1000)} kB, ${content.pictures.length} stills`);
    if (content.lesson.findings.length === 0) say('The lesson page of this swing has no findings yet.');
  },
};
