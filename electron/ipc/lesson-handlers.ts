import { basename, dirname, join } from 'node:path';
import { say } from '../../core/model/say.ts';
import type { Book } from '../../core/book/book.ts';
import { writeWholeFile } from '../../core/files/write-whole-file.ts';
import { talkForMail } from '../../core/jobs/book-talk.ts';
import { placingOfBook } from '../../core/jobs/placing-of-book.ts';
import type { LessonOrder } from '../../core/jobs/lesson-files.ts';
import { swingOfBook } from '../../core/jobs/swing-source.ts';
import { AppError } from '../../core/model/errors.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { numbersAsCsv, numbersOf } from '../../core/report/numbers.ts';
import { reportOf } from '../../core/report/lesson-report.ts';
import type { Handlers } from './answer.ts';
import { requireConsent } from './consent.ts';
import type { LessonFile, LessonFilesOrder } from './contract.ts';
import type { Program } from './handlers.ts';
import { plainFileName } from './plain-file-name.ts';

type LessonRequest = 'page/earlier' | 'library/read' | 'library/write' | 'lesson/save' | 'lesson/pdf' | 'lesson/open';
type Needs = Pick<Program, 'book' | 'dialogs' | 'granted' | 'jobs' | 'findFfmpeg'>;

const ENDINGS = { mail: 'eml', pdf: 'pdf', csv: 'csv', json: 'json' } as const;

/** What a lesson sends: its page, the letter, its numbers. */
export function lessonHandlers(program: Needs): Pick<Handlers, LessonRequest> {
  const { book, dialogs, granted, jobs } = program;
  return {
    'page/earlier'({ swingId }) {
      const earlier = book.earlierPage(swingId);
      if (earlier === null) return null;
      return { earlier, swing: earlier.swingId === null ? null : book.openSwing(earlier.swingId) };
    },

    'library/read': () => book.readLibrary(),
    'library/write'(library) {
      book.writeLibrary(library);
      return null;
    },

    async 'lesson/save'(order) {
      // Read before the coach is asked where: what is missing is said at once.
      const source = orderOf(book, order);
      const name = fileNameOf(source);
      const path =
        order.as === 'all'
          ? await dialogs.chooseStillsFolder()
          : await dialogs.chooseLessonFile(`${name}.${ENDINGS[order.as]}`, ENDINGS[order.as]);
      if (path === null) return null;
      const notes = await jobs.run(order.jobId, say`Making what the lesson sends`, async (run) =>
        order.as === 'csv' || order.as === 'json'
          ? writeNumbers(source, order.as, path)
          : writeLesson({ program, source, swingId: order.swingId, as: order.as, paper: order.paper, path, name }, run),
      );
      const folder = order.as === 'all' ? path : dirname(path);
      granted.grantFolder(folder);
      granted.grantFile(path);
      return { path, folder, notes };
    },

    async 'lesson/pdf'({ jobId, paper, ...order }) {
      const source = orderOf(book, order);
      return jobs.run(jobId, say`Making the PDF`, async (run) => {
        const { makeLesson, makePdf } = await import('../../core/jobs/lesson-files.ts');
        return makePdf(await makeLesson(source, await program.findFfmpeg(), run), paper, new Date(), run);
      });
    },

    async 'lesson/open'({ path }) {
      if (!granted.hasFile(path))
        throw new AppError('bad-request', say`Only files that were saved here can be opened.`);
      await dialogs.openFile(path);
      return null;
    },
  };
}

function orderOf(book: Book, { swingId, thenSwingId }: Pick<LessonFilesOrder, 'swingId' | 'thenSwingId'>): LessonOrder {
  const swing = book.openSwing(swingId);
  requireConsent(swing);
  const earlier = book.earlierPage(swingId);
  return {
    now: swingOfBook(book, swingId),
    then: thenSwingId === null ? null : swingOfBook(book, thenSwingId),
    page: swing.page,
    earlier:
      earlier === null
        ? null
        : {
            ...{ date: earlier.date, page: earlier.page },
            swing: earlier.swingId === null ? null : swingOfBook(book, earlier.swingId),
          },
    goals: book.readGoals().goals,
    placing: placingOfBook(book),
  };
}

/** "Robin 12 May 2026 7 iron". */
function fileNameOf({ now: { swing } }: LessonOrder): string {
  return plainFileName(`${swing.studentFirstName} ${dayInWords(swing.date)} ${swing.club}`) || 'lesson';
}

async function writeNumbers({ now, goals, placing }: LessonOrder, as: 'csv' | 'json', path: string) {
  const report = reportOf({ now: now.swing, then: null, goals, ...(placing === undefined ? {} : { placing }) });
  const numbers = numbersOf(now.swing, report.now);
  // The byte order mark tells a spreadsheet that it is UTF-8.
  const content = as === 'json' ? JSON.stringify(numbers, null, 2) : `\uFEFF${numbersAsCsv(numbers).join('\r\n')}\r\n`;
  await writeWholeFile(path, content, { overwrite: true });
  return [];
}

interface LessonWrite {
  readonly program: Needs;
  readonly source: LessonOrder;
  readonly swingId: string;
  readonly as: Exclude<LessonFile, 'csv' | 'json'>;
  readonly paper: LessonFilesOrder['paper'];
  /** The file, or for `all` the folder. */
  readonly path: string;
  readonly name: string;
}

async function writeLesson({ program, source, swingId, as, paper, path, name }: LessonWrite, run: JobRun) {
  // Loaded when first needed, with the native code that paints: the window opens sooner.
  const { makeLesson, makeMail, makePdf } = await import('../../core/jobs/lesson-files.ts');
  const content = await makeLesson(source, await program.findFfmpeg(), run);
  const made = new Date();
  const talk = as === 'pdf' ? null : await talkForMail(program.book, swingId);
  const wishes = { template: program.book.readLibrary().letter, paper, talk, made };
  // The system's dialog has asked before it named a file that is there already.
  if (as === 'pdf') {
    await writeWholeFile(path, await makePdf(content, paper, made, run), { overwrite: true });
    return [];
  }
  const mail = await makeMail(content, wishes, run);
  if (as === 'mail') {
    await writeWholeFile(path, mail.bytes, { overwrite: true });
    return mail.notes;
  }
  // Into a folder: what is there already stays, and nothing is half there.
  const files = new Map<string, Uint8Array | string>([
    [`${name}.pdf`, await makePdf(content, paper, made, run)],
    [`${name}.eml`, mail.bytes],
  ]);
  for (const picture of content.pictures) {
    files.set(basename(picture.name), picture.bytes);
    files.set(`${basename(picture.name)}.txt`, `${picture.alt}\n`);
  }
  for (const [file, bytes] of files) await writeWholeFile(join(path, file), bytes);
  return mail.notes;
}

type JobRun = Parameters<Parameters<Program['jobs']['run']>[2]>[0];
