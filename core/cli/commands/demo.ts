import { mkdir, readdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { clipPath } from '../../book/media.ts';
import { openBook } from '../../book/open-book.ts';
import { demoStory } from '../../demo/demo-story.ts';
import { isAbsent, readingTrouble, writingTrouble } from '../../files/file-trouble.ts';
import { writeWholeFile } from '../../files/write-whole-file.ts';
import { writeDemoTalk } from '../../jobs/demo-talk.ts';
import type { JobContext } from '../../jobs/job-context.ts';
import { makeLesson, makeMail, makePdf } from '../../jobs/lesson-files.ts';
import { makeDemo } from '../../jobs/make-demo.ts';
import { renderTalk, type TalkOrder } from '../../jobs/render-talk.ts';
import { saveStills } from '../../jobs/save-stills.ts';
import { swingOfBook } from '../../jobs/swing-source.ts';
import { AppError } from '../../model/errors.ts';
import type { SwingFile } from '../../model/swing-file.ts';
import { VIEWS } from '../../model/words.ts';
import { swingFileOf } from '../../swing-file/swing-file-of.ts';
import { writeSwingFile } from '../../swing-file/write-swing-file.ts';
import { readTalkFile } from '../../talk-file/read-talk-file.ts';
import { findFfmpeg, type Ffmpeg } from '../../video/process/find-ffmpeg.ts';
import type { Command } from '../command.ts';
import { tenthsOf } from '../tenths.ts';
import { USUAL_CHECKPOINTS } from '../../report/checkpoints.ts';
import { STILL_WIDTH } from '../../report/still-file.ts';

/** What each of the demo's stills is there as. */
const DEMO_KINDS = [
  { layout: 'phone', format: 'jpeg' },
  { layout: 'mail', format: 'jpeg' },
  { layout: 'mail', format: 'png' },
] as const;

/** `baybook demo --out DIR`: an invented student's two lessons, from clips to stills. */
export const demoCommand: Command = {
  name: 'demo',
  summary: 'Make the invented demo: clips, book, swing files, and everything the lesson sends.',
  operands: { shown: '', least: 0, most: 0 },
  options: {
    out: { type: 'string', value: 'DIR', help: 'a new or empty folder' },
    json: { type: 'boolean', help: 'print where everything is as JSON' },
  },
  details: [
    'DIR/clips      two lessons, two views each, with the truth of every body point in every frame beside them',
    'DIR/book       a book to open in the window (start it with BAYBOOK_BOOK set to this folder)',
    'DIR/then.json, DIR/now.json    the swings as swing files, for read, compare and sheet',
    'DIR/stills     address, top and impact, then beside now with what changed: for a phone, and for mail; each with its text',
    'DIR/lesson.pdf, DIR/lesson.eml    the lesson page of today on paper, and as a mail draft',
    'DIR/talk.json, DIR/talk.mp4    a short talk-through with tones in place of a voice, and its video',
  ],
  async run(args, { out, say, signal }) {
    const given = args.text('out');
    if (given === undefined) throw new AppError('bad-arguments', 'Say where to make the demo: --out DIR.');
    const folder = resolve(given);
    await takeEmptyFolder(folder);
    const ffmpeg = await findFfmpeg();
    if (ffmpeg.warning !== null) say(ffmpeg.warning);
    const run = { signal, report: tenthsOf(say) };
    const clipsFolder = join(folder, 'clips');
    await mkdir(clipsFolder).catch((cause: unknown) => {
      throw writingTrouble(cause, clipsFolder);
    });
    const book = openBook(join(folder, 'book'));
    try {
      const { thenSwingId, nowSwingId } = await makeDemo(book, { clipsFolder, ffmpeg }, run);
      const { pages, lessons } = demoStory();
      book.setPage(nowSwingId, pages.now);
      const swingFiles = [];
      const swings = new Map<string, SwingFile>();
      for (const [name, id] of [['then', thenSwingId] as const, ['now', nowSwingId] as const]) {
        const swing = book.openSwing(id);
        const paths = new Map<string, string>();
        for (const clip of swing.clips) paths.set(clip.id, await clipPath(book, clip.id));
        const path = join(folder, `${name}.json`);
        const file = swingFileOf(swing, (clip) => paths.get(clip.id) ?? '', folder);
        swings.set(name, file);
        await writeSwingFile(path, file);
        swingFiles.push(path);
      }
      const [then, now] = [swingOfBook(book, thenSwingId), swingOfBook(book, nowSwingId)];
      const { goals } = book.readGoals();
      const usual = { checkpoints: USUAL_CHECKPOINTS, views: VIEWS, width: STILL_WIDTH.usual, goals };
      const order = { ...usual, folder: join(folder, 'stills'), existing: 'refuse' as const };
      const saved = [];
      for (const kind of DEMO_KINDS) {
        saved.push(...(await saveStills({ ...order, ...kind, now, then: null }, ffmpeg, run)));
        saved.push(...(await saveStills({ ...order, ...kind, now, then }, ffmpeg, run)));
      }
      const earlier = { date: lessons.then.date, page: pages.then, swing: then };
      const content = await makeLesson({ now, then, page: pages.now, earlier, goals }, ffmpeg, run);
      const [pdf, mail] = [join(folder, 'lesson.pdf'), join(folder, 'lesson.eml')];
      const made = new Date();
      await writeWholeFile(pdf, await makePdf(content, 'A4', made, run));
      const wishes = { template: book.readLibrary().letter, paper: 'A4', talk: null, made } as const;
      await writeWholeFile(mail, (await makeMail(content, wishes, run)).bytes);
      const talk = await makeTalk(folder, swings, { now, then, goals }, ffmpeg, run);
      const files = {
        folder,
        clips: clipsFolder,
        book: book.folder,
        swingFiles,
        stills: saved.map(({ path }) => path),
        pdf,
        mail,
        ...talk,
      };
      if (args.has('json')) out(JSON.stringify(files));
      else out(`The demo is in ${folder}: ${saved.length} stills in ${order.folder}, the lesson page in ${pdf}`);
    } finally {
      book.close();
    }
  },
};

/** The short talk-through and its video. */
async function makeTalk(
  folder: string,
  swings: ReadonlyMap<string, SwingFile>,
  { now, then, goals }: Pick<TalkOrder, 'now' | 'then' | 'goals'>,
  ffmpeg: Ffmpeg,
  run: JobContext,
): Promise<{ talk: string; video: string }> {
  const file = swings.get('now');
  if (file === undefined) throw new Error('the demo has no swing of now');
  const log = await writeDemoTalk(folder, { now: file, then: swings.get('then') ?? null });
  const { talk } = await readTalkFile(log);
  const out = join(folder, 'talk.mp4');
  const order = {
    talk,
    folder,
    now,
    then,
    goals,
    out,
    shape: 'wide',
    burnCaptions: true,
    existing: 'refuse',
  } as const;
  await renderTalk(order, ffmpeg, run);
  return { talk: log, video: out };
}

/** Makes the folder, or takes one that is empty: what somebody keeps is never mixed with a demo. */
async function takeEmptyFolder(folder: string): Promise<void> {
  const there = await readdir(folder).catch((cause: unknown) => {
    if (isAbsent(cause)) return null;
    throw readingTrouble(cause, folder);
  });
  if (there !== null && there.length > 0)
    throw new AppError(
      'file-exists',
      `${folder} is not empty, so it was left alone. Choose a new folder for the demo.`,
    );
  await mkdir(folder, { recursive: true }).catch((cause: unknown) => {
    throw writingTrouble(cause, folder);
  });
}
