import { swingOfFile } from '../jobs/swing-source.ts';
import type { LessonOrder } from '../jobs/lesson-files.ts';
import { PAPERS, type Paper } from '../lesson-page/write-pdf.ts';
import { AppError } from '../model/errors.ts';
import { isEmptyPage } from '../model/lesson-page.ts';
import { readSwingFile } from '../swing-file/read-swing-file.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import type { OptionSpec, ParsedArguments } from './command.ts';
import { remindOfConsent } from './consent.ts';
import { goalsOf, GOALS_OPTION } from './goals-option.ts';
import { BOOK_OPTION, placingOf } from './placing-option.ts';

/** What the commands share that make something of a lesson. */
export const LESSON_OPTIONS: Readonly<Record<'then' | 'out' | 'paper' | 'book' | 'goals', OptionSpec>> = {
  then: { type: 'string', value: 'THEN.json', help: 'the swing of an earlier lesson: what changed since then' },
  out: { type: 'string', value: 'FILE', help: 'where to write; an earlier file is never replaced' },
  paper: { type: 'string', value: 'A4|Letter', help: 'A4 unless told' },
  book: BOOK_OPTION,
  goals: GOALS_OPTION,
};

/** The lesson of a swing file: its page is in the file, and that of THEN is what the lesson before asked for. */
export async function lessonOf(
  args: ParsedArguments,
  ffmpeg: Ffmpeg,
  say: (line: string) => void,
): Promise<LessonOrder> {
  const [nowPath = ''] = args.operands;
  const thenPath = args.text('then');
  const nowFile = await readSwingFile(nowPath);
  const thenFile = thenPath === undefined ? null : await readSwingFile(thenPath);
  remindOfConsent([nowFile.swing, thenFile?.swing ?? null], say);
  const then = thenFile === null ? null : swingOfFile(thenFile, ffmpeg);
  return {
    now: swingOfFile(nowFile, ffmpeg),
    then,
    page: nowFile.swing.page,
    earlier:
      thenFile === null || isEmptyPage(thenFile.swing.page)
        ? null
        : { date: thenFile.swing.lesson.date, page: thenFile.swing.page, swing: then },
    goals: await goalsOf(args),
    placing: placingOf(args),
  };
}

export function outOf(args: ParsedArguments, example: string): string {
  const path = args.text('out');
  if (path === undefined) throw new AppError('bad-arguments', `Say where to write: --out ${example}.`);
  return path;
}

export function paperOf(args: ParsedArguments): Paper {
  const asked = args.text('paper') ?? 'A4';
  const paper = PAPERS.find((one) => one.toLowerCase() === asked.toLowerCase());
  if (paper === undefined) throw new AppError('bad-arguments', `--paper is ${PAPERS.join(' or ')}, not "${asked}".`);
  return paper;
}
