import { randomUUID } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { say } from '../../core/model/say.ts';
import type { Book } from '../../core/book/book.ts';
import type { Clip } from '../../core/model/book.ts';
import { clipPath, relinkClip } from '../../core/book/media.ts';
import { findStrays, straySentences } from '../../core/book/strays.ts';
import { importClip } from '../../core/jobs/import-clip.ts';
import { followThing } from '../../core/jobs/follow-thing.ts';
import { addPart } from '../../core/jobs/keep-part.ts';
import { proposePoints } from '../../core/jobs/propose-points.ts';
import { learnErrors } from '../../core/measure/proposed/learn-errors.ts';
import { proposeClip } from '../../core/jobs/propose-clip.ts';
import { readClipFile } from '../../core/video/index/clip-format.ts';
import { readRecentIndex } from '../../core/video/index/recent-index.ts';
import { swingsOfClip } from '../../core/jobs/swings-of-clip.ts';
import { inspectClip } from '../../core/jobs/inspect-clip.ts';
import { AppError } from '../../core/model/errors.ts';
import type { SoundEnvelope } from '../../core/model/sound.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readFirstPicture } from '../../core/video/decode/first-picture.ts';
import type { CodedStart } from '../../core/time/first-picture.ts';
import { askCodedStart } from '../../core/video/index/read-container.ts';
import { written, type Handlers } from './answer.ts';
import { binHandlers } from './bin-handlers.ts';
import { lessonHandlers } from './lesson-handlers.ts';
import type { KeptFacts, WritesFacts } from './contract.ts';
import type { Dialogs } from './dialogs.ts';
import type { GrantedPaths } from './granted-paths.ts';
import type { ReadSettings } from '../../core/model/settings.ts';
import { goalsHandlers } from './goals-handlers.ts';
import type { Outgoing } from './outgoing.ts';
import type { Keeping } from './keeping.ts';
import type { RunningJobs } from './running-jobs.ts';
import { stillHandlers } from './still-handlers.ts';
import { swingFileHandlers } from './swing-file-handlers.ts';
import type { Recordings } from './recordings.ts';
import { talkHandlers } from './talk-handlers.ts';
import type { WriteRows } from './unwritten.ts';

/** What the answers are made from. Nothing in here needs Electron, so tests answer requests in plain Node. */
export interface Program {
  readonly version: string;
  /** Version of Electron. */
  readonly electron: string;
  /** How this computer writes days. */
  readonly place: string;
  readonly book: Book;
  /** @throws AppError `ffmpeg-missing`. */
  readonly findFfmpeg: () => Promise<Ffmpeg>;
  readonly jobs: RunningJobs;
  readonly keeping: Keeping;
  readonly granted: GrantedPaths;
  readonly dialogs: Dialogs;
  /** The system's clipboard. */
  readonly clipboard: { writePicture(png: Uint8Array): Promise<void>; writeText(text: string): Promise<void> };
  /** Clips that are open for looking at; closed before their files may go. */
  readonly openClips: { close(clipId: string): Promise<void>; closeAll(): Promise<void> };
  /** Clears what is kept outside of the book of what was removed from it; never rejects. */
  readonly clearTraces: () => Promise<void>;
  /** Prints what the page shows for paper. @throws AppError `not-printed`. */
  readonly printer: { print(paper: 'A4' | 'Letter' | null): Promise<boolean> };
  /** Where a file lies that is dragged out of the window. */
  readonly outgoing: Outgoing;
  /** Begins to drag it, by the mouse button that is held. */
  readonly dragFile: (path: string) => void;
  readonly recordings: Recordings;
  /** Whether the page may listen to a microphone. */
  readonly microphone: { allow(open: boolean): void };
  /** How loud clips are. */
  readonly sounds: { sound(clipId: string): Promise<SoundEnvelope | null> };
  readonly settings: { read(): Promise<ReadSettings> };
  /** All that the window changes without asking. */
  readonly rows: WriteRows;
  readonly leaving: {
    /** A page is there and listens. */
    pageOpened(): WritesFacts;
    /** The page has handed over all that it had, and says what the coach is in the middle of. */
    woundUp(unfinished: readonly string[]): void;
    takeInKept(choose: boolean): Promise<KeptFacts | null>;
  };
  readonly frames: {
    /** Opens a clip at the frame server. @throws AppError `clip-moved`, `clip-changed`, `no-such-record`. */
    show(clipId: string, glance?: boolean): Promise<void>;
    /** Opens a file that is no clip of the book yet, under the name `look`, in place of the one before. */
    look(path: string, index: ClipIndex): Promise<void>;
    /** Nobody looks at any clip for now. */
    rest(): void;
    /** Sends the page a port. */
    connect(): void;
  };
}

/** Size and time of change of a file; null where it cannot be read, which its look says. */
type ClipStamp = Promise<string | null>;
const stampOf = (path: string): ClipStamp =>
  readClipFile(path).then(
    ({ bytes, modifiedMs }) => `${String(bytes)} ${String(modifiedMs)}`,
    () => null,
  );

/** What the program does for each request of the window. */
export function handlersOf(program: Program): Handlers {
  const { book, jobs, granted, dialogs, openClips, findFfmpeg, frames, rows } = program;

  function requireGrantedFile(path: string): void {
    if (!granted.hasFile(path))
      throw new AppError('bad-request', say`Choose the clip in the file dialog, or drop it on the window.`);
  }

  /** What makes the first picture of the file that was chosen last is read before the window can ask for it. */
  let begun: { readonly path: string; readonly file: ClipStamp; readonly start: Promise<CodedStart | null> } | null =
    null;
  let isBegunOver: Promise<unknown> = Promise.resolve();
  const begin = (path: string): Promise<CodedStart | null> => {
    const start = askCodedStart(path);
    // Whoever asks for it hears of it; what is wrong with the file is said by the look.
    isBegunOver = start.catch(() => undefined);
    return start;
  };

  return {
    'program/facts': async () => ({
      version: program.version,
      bookFolder: book.folder,
      strays: straySentences(findStrays(book), book.media.path),
      electron: program.electron,
      place: program.place,
      ffmpeg: await ffmpegFacts(findFfmpeg),
      empty: book.listStudents().length === 0,
    }),

    'program/print': ({ paper }) => program.printer.print(paper),

    'settings/read': () => program.settings.read(),
    'settings/write': async (settings) => written(await rows.settings.put(settings)),

    ...goalsHandlers(book, dialogs, rows.goals),
    ...binHandlers(program),

    'student/list': () => book.listStudents(),
    'student/add': (fields) => book.addStudent(fields),
    'student/change': ({ id, ...fields }) => book.changeStudent(id, fields),

    'lesson/add': (lesson) => book.addLesson(lesson),
    'lesson/change': ({ id, ...fields }) => book.changeLesson(id, fields),

    'swing/add': (swing) => book.addSwing(swing),
    'swing/open': ({ id }) => book.openSwing(id),
    'swing/places': ({ id, view }) => book.placesFor(id, view),
    'swing/then': ({ id }) => ({ thenId: book.thenOf(id) }),
    'swing/compare'({ id, thenId }) {
      book.rememberThen(id, thenId);
      return null;
    },

    ...swingFileHandlers(program),
    ...lessonHandlers(program),
    ...talkHandlers(program),

    async 'clip/choose'() {
      const path = await dialogs.chooseClip();
      if (path === null) return null;
      granted.grantFile(path);
      begun = { path, file: stampOf(path), start: begin(path) };
      return { path };
    },

    async 'clip/look'({ path }) {
      requireGrantedFile(path);
      const { look, index } = await inspectClip(path, await findFfmpeg());
      // What makes the first picture goes first: to hand on the frames of a long clip holds this thread up.
      await isBegunOver;
      await frames.look(path, index);
      return look;
    },

    async 'clip/coded-start'({ path }) {
      requireGrantedFile(path);
      const known = begun?.path === path ? begun : null;
      begun = null;
      // A file that was changed meanwhile is another file.
      const isKnown = known !== null && (await known.file) === (await stampOf(path));
      return isKnown ? known.start : begin(path);
    },

    async 'clip/first-picture'({ path }) {
      requireGrantedFile(path);
      return readFirstPicture(path, { ffmpeg: await findFfmpeg() });
    },

    async 'clip/find-swings'({ jobId, path }) {
      requireGrantedFile(path);
      return jobs.run(jobId, null, async (run) => {
        const ffmpeg = await findFfmpeg();
        const index = await readRecentIndex(path, { ffmpeg, signal: run.signal });
        return swingsOfClip({ path, index }, ffmpeg, run);
      });
    },

    async 'clip/import'({ jobId, ...order }) {
      requireGrantedFile(order.path);
      return jobs.run(jobId, say`Adding a clip`, async (run) => {
        const { span, ...whole } = order;
        if (span === null) return importClip(book, whole, await findFfmpeg(), run);
        if (order.stored === 'linked')
          throw new AppError(
            'bad-request',
            say`A part of a clip is always copied into the book. Keep all of it to link it.`,
          );
        const clip = await addPart(book, { ...whole, span }, await findFfmpeg(), run);
        keepUnwatched(program, clip);
        return clip;
      });
    },

    'clip/keep': ({ jobId, ...part }) => jobs.run(jobId, say`Adding a clip`, (run) => program.keeping.keep(part, run)),

    async 'clip/relink'({ jobId, id, path }) {
      requireGrantedFile(path);
      await openClips.close(id);
      return jobs.run(jobId, say`Looking at a file`, ({ signal, report }) =>
        relinkClip(book, id, path, { signal, onProgress: (done, total) => report(say`Reading the clip`, done, total) }),
      );
    },

    async 'clip/propose'({ jobId, id }) {
      const clip = { path: await clipPath(book, id), index: book.clipIndex(id) };
      return jobs.run(jobId, null, async (run) => proposeClip(clip, await findFfmpeg(), run));
    },

    async 'clip/propose-points'({ jobId, swingId, id, frames: wanted }) {
      const { lesson, clips } = book.openSwing(swingId);
      const clip = clips.find((each) => each.id === id);
      if (clip === undefined) throw new AppError('no-such-record', say`This clip is not in the swing any more.`);
      const index = book.clipIndex(id);
      if (wanted.some(({ frame }) => index.frames[frame] === undefined))
        throw new AppError('no-such-frame', say`This clip has no such frame. Choose another frame.`);
      const { view } = clip;
      // Of the other view nothing is asked, and thousands of corrections take a part of a second of this thread.
      const learnt = learnErrors(book.listCorrections().corrections.filter((each) => each.view === view));
      const of = { view, handedness: lesson.handedness, learnt };
      const order = { ...of, path: await clipPath(book, id), index, frames: wanted };
      return jobs.run(jobId, null, async (run) => proposePoints(order, await findFfmpeg(), run));
    },

    async 'clip/follow'({ jobId, id, frame, until, ...thing }) {
      const index = book.clipIndex(id);
      if (until <= frame || index.frames[until] === undefined)
        throw new AppError('no-such-frame', say`This clip has no such frame. Choose another frame.`);
      const order = { ...thing, frame, until, path: await clipPath(book, id), index };
      return jobs.run(jobId, null, async (run) => followThing(order, await findFfmpeg(), run));
    },

    async 'clip/show'({ id }) {
      await frames.show(id);
      return null;
    },

    async 'clip/glance'({ id }) {
      await frames.show(id, true);
      return null;
    },

    'clip/index': ({ id }) => book.clipIndex(id),

    'clip/sound': ({ id }) => program.sounds.sound(id),

    'edit/write': async (write) => written(await rows.edits.put(write)),
    'edit/list': ({ lessonId }) => book.listEdits(lessonId),

    'repeat/add': (check) => book.addRepeatCheck(check),
    'repeat/list': () => book.listRepeatChecks(),
    'corrections/list': () => book.listCorrections(),
    'corrections/forget'() {
      book.forgetCorrections(new Date().toISOString());
      return null;
    },

    'repeat/remove'({ id }) {
      book.removeRepeatCheck(id);
      return null;
    },

    async 'writes/retry'({ row }) {
      await rows.retry(row);
      return null;
    },
    'writes/read': () => program.leaving.pageOpened(),
    'kept/take-in': ({ choose }) => program.leaving.takeInKept(choose),
    'window/wound-up'({ unfinished }) {
      program.leaving.woundUp(unfinished);
      return null;
    },

    ...stillHandlers(program),

    'frames/rest'() {
      frames.rest();
      return null;
    },

    'frames/connect'() {
      frames.connect();
      return null;
    },

    async 'demo/make'({ jobId }) {
      await jobs.run(jobId, say`Making the demo book`, async (run) => {
        const { makeDemo } = await import('../../core/jobs/make-demo.ts');
        // The book takes its own copies.
        const clipsFolder = await mkdtemp(join(tmpdir(), 'baybook-demo-'));
        try {
          await makeDemo(book, { clipsFolder, ffmpeg: await findFfmpeg() }, run);
        } finally {
          await rm(clipsFolder, { recursive: true, force: true });
        }
      });
      return null;
    },

    'job/cancel'({ jobId }) {
      jobs.cancel(jobId);
      return null;
    },
  };
}

/** Takes a part out of its clip while nobody watches. What goes wrong is told when its swing is opened. */
export function keepUnwatched({ jobs, keeping }: Pick<Program, 'jobs' | 'keeping'>, { id, kept }: Clip): void {
  jobs.run(randomUUID(), null, (run) => keeping.keep({ id, first: kept?.first ?? 0 }, run)).catch(() => undefined);
}

/** Null when there is none: the window then says what to install, instead of failing at the first clip. */
async function ffmpegFacts(findFfmpeg: () => Promise<Ffmpeg>) {
  try {
    const { path, version, warning } = await findFfmpeg();
    return { path, version, warning };
  } catch (cause) {
    if (cause instanceof AppError && cause.code === 'ffmpeg-missing') return null;
    throw cause;
  }
}
