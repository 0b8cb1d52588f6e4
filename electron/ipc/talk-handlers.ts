import { dirname } from 'node:path';
import { say } from '../../core/model/say.ts';
import { clipPath } from '../../core/book/media.ts';
import { dropTake, readBookTalk, talkOfBook, type BookTalk } from '../../core/jobs/book-talk.ts';
import { placingOfBook } from '../../core/jobs/placing-of-book.ts';
import { swingOfBook } from '../../core/jobs/swing-source.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { AppError } from '../../core/model/errors.ts';
import { readTakeSound } from '../../core/talk-file/read-sound.ts';
import { noteSaved, readSaved } from '../../core/talk-file/saved-film.ts';
import { takeFiles } from '../../core/talk-file/take-files.ts';
import type { Handlers } from './answer.ts';
import { requireConsent } from './consent.ts';
import type { SavedTalk } from './contract.ts';
import type { Program } from './handlers.ts';
import { plainFileName } from './plain-file-name.ts';

type TalkRequest = Extract<keyof Handlers, `talk/${string}`>;

/** The coach's spoken review: recorded, put right and saved as a video. */
export function talkHandlers(program: Program): Pick<Handlers, TalkRequest> {
  const { book, dialogs, granted, jobs, microphone, recordings } = program;

  async function read(swingId: string): Promise<BookTalk | null> {
    recordings.refuseWhileRunning();
    return readBookTalk(book, swingId);
  }

  return {
    async 'talk/read'({ swingId }) {
      const talk = await read(swingId);
      if (talk === null) return null;
      const { takes, thenId, brokenOff, saved } = talk;
      return { takes, thenId, brokenOff, saved: saved === null ? null : grant(saved.path, saved.bytes) };
    },

    'talk/microphone'({ open }) {
      microphone.allow(open);
      return null;
    },

    async 'talk/begin'({ swingId, sound, ...begun }) {
      const swing = book.openSwing(swingId);
      requireConsent(swing);
      // A take names frames for good: those of a part that is coming may still get other numbers.
      for (const { id, coming } of swing.clips) if (coming === true) await clipPath(book, id);
      return { take: await recordings.begin(book.talkFolder(swingId), sound, begun) };
    },

    async 'talk/append'(part) {
      await recordings.append(part);
      return null;
    },

    async 'talk/end'({ whole }) {
      await (whole ? recordings.end() : recordings.breakOff());
      return null;
    },

    async 'talk/drop-take'({ swingId, take }) {
      const talk = await read(swingId);
      if (talk !== null && talk.brokenOff?.take === take) await dropTake(talk.folder, take);
      return null;
    },

    async 'talk/remove'({ swingId }) {
      recordings.refuseWhileRunning();
      book.removeTalk(swingId);
      await program.clearTraces();
      return null;
    },

    'talk/sound': ({ swingId, take, from, to }) =>
      readTakeSound(takeFiles(book.talkFolder(swingId), take).sound, from, to),

    async 'talk/save'({ jobId, swingId, shape, burnCaptions }) {
      requireConsent(book.openSwing(swingId));
      // Read before the coach is asked where: what is missing is said at once.
      const kept = await read(swingId);
      const talk = kept === null ? null : talkOfBook(book, swingId, kept);
      if (kept === null || talk === null) throw new AppError('bad-request', say`Record a talk-through first.`);
      const now = swingOfBook(book, swingId);
      const then = kept.thenId === null ? null : swingOfBook(book, kept.thenId);
      const { studentFirstName, date, club } = now.swing;
      const name = plainFileName(`${studentFirstName} ${dayInWords(date)} ${club}`) || 'talk-through';
      const out = await dialogs.chooseLessonFile(`${name}.mp4`, 'mp4');
      if (out === null) return null;
      await jobs.run(jobId, say`Making the video`, async (run) => {
        // Loaded when first needed: the window opens sooner.
        const { renderTalk } = await import('../../core/jobs/render-talk.ts');
        const { goals } = book.readGoals();
        const placing = placingOfBook(book);
        const order = { talk, folder: kept.folder, now, then, goals, shape, burnCaptions, out };
        // The system's dialog has asked before it named a file that is there already.
        return renderTalk({ ...order, placing, existing: 'replace' }, await program.findFfmpeg(), run);
      });
      await noteSaved(kept.folder, out);
      const saved = await readSaved(kept.folder);
      return grant(out, saved?.bytes ?? 0);
    },
  };

  function grant(path: string, bytes: number): SavedTalk {
    const folder = dirname(path);
    granted.grantFile(path);
    granted.grantFolder(folder);
    return { path, folder, bytes };
  }
}
