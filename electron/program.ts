import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { app, dialog, session, type BrowserWindow } from 'electron';
import { say } from '../core/model/say.ts';
import { clipPath } from '../core/book/media.ts';
import { settleClip } from '../core/jobs/settle-clip.ts';
import { systemTrouble } from '../core/files/file-trouble.ts';
import { endOfStay } from '../core/book/bin-stay.ts';
import { prepareFileProbe } from '../core/files/find-file.ts';
import { prepareContainerReader } from '../core/video/index/read-container.ts';
import { placeOfSystem, writeDaysAs } from '../core/model/day-in-words.ts';
import { AppError } from '../core/model/errors.ts';
import type { DecodePass } from '../core/time/settle-index.ts';
import { showUnits } from '../core/measure/words/shown-units.ts';
import type { Settings } from '../core/model/settings.ts';
import { registerFonts } from '../core/sheet/fonts.ts';
import { readSoundEnvelope } from '../core/video/decode/sound-envelope.ts';
import { sideForScreen } from '../core/video/proxy/proxy-size.ts';
import { ClipSounds } from './clip-sounds.ts';
import { closeNetwork } from './closed-network.ts';
import { endProgram } from './end-program.ts';
import { FaultLog } from './fault-log.ts';
import { FrameServer } from './frame-server.ts';
import { INTERNAL_SENTENCE } from './ipc/answer.ts';
import { GrantedPaths } from './ipc/granted-paths.ts';
import { answerWindow, sendClipSettled, sendFramesStopped, sendJobReport } from './ipc/handle.ts';
import { handlersOf, keepUnwatched } from './ipc/handlers.ts';
import { Keeping } from './ipc/keeping.ts';
import { Outgoing } from './ipc/outgoing.ts';
import { Recordings } from './ipc/recordings.ts';
import { RunningJobs } from './ipc/running-jobs.ts';
import { WriteRows } from './ipc/unwritten.ts';
import { KeptInBook } from './kept-in-book.ts';
import { Leaving } from './leaving.ts';
import { Microphone } from './microphone.ts';
import { windowPrinter } from './printer.ts';
import { rememberFfmpeg } from './remember-ffmpeg.ts';
import { longestScreenSide } from './screen-size.ts';
import { setMenu } from './menu.ts';
import { inspectedFacts, servedFacts } from './served-facts.ts';
import { openBookAtStart } from './open-book-at-start.ts';
import { WINDOW_ORIGIN } from './origins.ts';
import { choosePlaces } from './places.ts';
import { registerSchemes } from './schemes.ts';
import { systemClipboard } from './system-clipboard.ts';
import { dragFile } from './system-drag.ts';
import { systemDialogs } from './system-dialogs.ts';
import { clearTracesOutside } from './traces-outside.ts';
import { keepWindowPlace, readWindowPlace } from './kept-window-place.ts';
import { serveWindowFiles } from './window-files.ts';
import { readSettings, writeSettings } from './settings-file.ts';
import { guardContents, guardSession, openWindow } from './window.ts';

/** The program in its window: puts the parts together, and takes them apart in the right order. Nothing else. */

/** The name of a file that is looked at before it is a clip of the book, at the frame server. */
const INSPECTED = 'look';

const places = choosePlaces(process.env, () => app.getPath('documents'));
if (places.userData !== null) app.setPath('userData', places.userData);
const settingsPath = join(app.getPath('userData'), 'settings.json');
const log = new FaultLog(join(app.getPath('userData'), 'faults.log'));

// A fault of ours is told calmly; without these two Electron would show a stack trace, or say nothing at all.
process.on('uncaughtException', (cause) => endWithSentence(INTERNAL_SENTENCE, cause));
process.on('unhandledRejection', (cause) => log.write('unhandled', cause));

/** What is still to be done for work that is not written, where the program ends by a fault of its own. */
let lastDuty = (): Promise<void> => Promise.resolve();

closeNetwork(app.commandLine);
registerSchemes();
if (app.requestSingleInstanceLock()) void app.whenReady().then(start).catch(failToStart);
else app.quit();

async function start(): Promise<void> {
  // A program that could not make a still is found out now, not when the lesson is to be sent.
  registerFonts();
  // So that the first clip that is chosen need not wait for it.
  prepareFileProbe();
  prepareContainerReader();
  const book = await openBookAtStart(places.book);
  let window: BrowserWindow | null = null;
  const findFfmpeg = rememberFfmpeg();
  const granted = new GrantedPaths();
  const sounds = new ClipSounds(async (clipId, signal) =>
    readSoundEnvelope(await clipPath(book, clipId), book.clipIndex(clipId), { ffmpeg: await findFfmpeg(), signal }),
  );
  const frames = new FrameServer({
    entry: join(import.meta.dirname, 'frame-server.js'),
    folder: join(app.getPath('userData'), 'scrub-copies'),
    longest: () => sideForScreen(longestScreenSide()),
    window: () => window?.webContents ?? null,
    onDecoded: ({ clip, pass }) => void settle(clip, pass),
    onFault: (what, cause) => log.write(what, cause),
    onStopped: () => window !== null && sendFramesStopped(window.webContents),
  });
  const keepSettings = (settings: Settings): Promise<void> => {
    // Stills are written here.
    showUnits(settings.units);
    return writeSettings(settingsPath, settings);
  };
  const rows = new WriteRows({
    edit: (write) => book.writeEdit(write),
    goals: (goals) => book.writeGoals(goals),
    settings: keepSettings,
  });
  const kept = new KeptInBook({
    ...{ book, writeSettings: keepSettings },
    notePath: join(app.getPath('userData'), 'kept-changes.json'),
  });
  lastDuty = async () => {
    await rows.retryAll();
    if (rows.count > 0) await kept.rescue(rows.unwritten);
  };
  const dialogs = systemDialogs(() => window);
  const jobs = new RunningJobs((report) => {
    if (window !== null) sendJobReport(window.webContents, report);
  });
  const outgoing = new Outgoing(join(app.getPath('userData'), 'going-out'));
  const recordings = new Recordings();
  const microphone = new Microphone();
  const leaving = new Leaving({ book, rows, jobs, kept, dialogs });
  const closing = new AbortController();

  async function show(clipId: string, glance = false): Promise<void> {
    const ffmpeg = await findFfmpeg();
    frames.open(clipId, await servedFacts(book, clipId, ffmpeg), ffmpeg, glance);
  }

  /** Pictures that come from the whole of a clip are asked of its part from now on. */
  const keeping = new Keeping({
    ...{ book, findFfmpeg },
    onKept: async (before, now) => {
      if (before !== now) await frames.close(before);
      else if (frames.has(now)) await show(now, true).catch(() => undefined);
    },
  });

  /** So that the first lesson that is opened need not wait for them. Where there is no ffmpeg, that is told when it is needed. */
  function prepareForPictures(): void {
    frames.prepare();
    findFfmpeg().catch(() => undefined);
  }

  /** The first pass over a clip has shown what its frames are. */
  async function settle(clipId: string, pass: DecodePass): Promise<void> {
    try {
      const settled = await settleClip(book, clipId, pass, { ffmpeg: await findFfmpeg(), signal: closing.signal });
      if (settled === null) return;
      if (settled.changed) {
        await readers.close(clipId);
        await show(clipId);
      }
      if (window !== null) sendClipSettled(window.webContents, { clipId, ...settled });
    } catch (cause) {
      // Removed, moved or closed meanwhile; it is settled when it is next opened. What is no trouble of the coach's is ours.
      if (!(cause instanceof AppError)) log.write('settling a clip', cause);
    }
  }

  // Whoever removes a file waits until nothing reads it.
  const readers = {
    close: async (clipId: string) => void (await Promise.all([frames.close(clipId), sounds.close(clipId)])),
    closeAll: async () => void (await Promise.all([frames.closeAll(), sounds.closeAll()])),
  };
  const clearTraces = (): Promise<void> =>
    clearTracesOutside({ book, frames, outgoing, session: session.defaultSession, log });

  const place = placeOfSystem(process.platform === 'linux' ? process.env : {}, app.getSystemLocale());
  writeDaysAs(place);
  setMenu(process.platform);
  app.on('web-contents-created', (_event, contents) => guardContents(contents));
  guardSession(session.defaultSession, microphone, (url) => log.write('refused', url.slice(0, 200)));
  serveWindowFiles(session.defaultSession, join(import.meta.dirname, '..', 'renderer'));
  const stopAnswering = answerWindow({
    windowOrigin: WINDOW_ORIGIN,
    onDroppedFile: (path) => granted.grantFile(path),
    onFault: (name, cause) => log.write(name, cause),
    handlers: handlersOf({
      version: readVersion(),
      electron: process.versions.electron,
      place,
      ...{ book, findFfmpeg, jobs, keeping, granted, sounds, recordings, microphone },
      openClips: readers,
      clearTraces,
      settings: {
        async read() {
          const read = await readSettings(settingsPath);
          showUnits(read.settings.units);
          return read;
        },
      },
      ...{ rows, leaving, dialogs, clipboard: systemClipboard, printer: windowPrinter(() => window), outgoing },
      dragFile: (path) => dragFile(window, path),
      frames: {
        show,
        look: async (path, index) => {
          const ffmpeg = await findFfmpeg();
          frames.open(INSPECTED, await inspectedFacts(path, index), ffmpeg);
        },
        rest: () => frames.rest(),
        connect: () => frames.connect(),
      },
    }),
  });

  // Before the page can read the book.
  await kept.takeInNoted();
  book.emptyBin(endOfStay(new Date()));
  void clearTraces();
  const windowPlacePath = join(app.getPath('userData'), 'window.json');
  window = openWindow(join(import.meta.dirname, '..', 'preload', 'preload.cjs'), readWindowPlace(windowPlacePath));
  keepWindowPlace(window, windowPlacePath);
  leaving.follow(window);
  window.webContents.once('did-finish-load', prepareForPictures);
  // What was ended on its way goes on.
  for (const id of book.comingClips()) keepUnwatched({ jobs, keeping }, book.findClip(id));
  // A page that is gone, or another one in its place, records nothing any more.
  const stopListening = (): void => {
    microphone.allow(false);
    recordings.breakOff().catch((cause: unknown) => log.write('ending a recording', cause));
  };
  window.webContents.on('did-start-navigation', ({ isMainFrame, isSameDocument }) => {
    if (isMainFrame && !isSameDocument) stopListening();
  });
  window.on('closed', () => {
    window = null;
    stopListening();
    // What the window was waiting for, nobody waits for any more.
    void jobs.cancelAll();
  });
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    stopListening();
    log.write('the window stopped', reason);
    // Not within the event: the page that is being taken down would swallow it.
    if (reason !== 'clean-exit' && !leaving.isLeaving) setImmediate(() => window?.reload());
  });
  app.on('second-instance', () => {
    if (window?.isMinimized() === true) window.restore();
    window?.focus();
  });
  app.on('window-all-closed', () => app.quit());

  // Electron's own would quit the first time and kill the second, whatever is not written.
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => leaving.onSignal());
  // A terminal that is gone takes no words.
  process.stderr.on('error', () => undefined);

  // Not before-quit: the window's last changes arrive while it closes, and the book must still be open for them.
  let ending: Promise<void> | null = null;
  app.on('will-quit', (event) => {
    event.preventDefault();
    ending ??= endProgram(closeParts());
  });
  async function closeParts(): Promise<void> {
    try {
      closing.abort();
      await Promise.all([jobs.cancelAll(), recordings.breakOff()]);
      await Promise.all([frames.end(), sounds.end(), outgoing.clear()]);
      stopAnswering();
      book.close();
    } catch (cause) {
      log.write('closing', cause);
    }
  }
}

function failToStart(cause: unknown): void {
  const told = systemTrouble(cause);
  if (told instanceof AppError) endWithSentence(told.message, cause);
  else endWithSentence(say`Baybook could not start because of a fault of its own. The book was left as it is.`, cause);
}

/** Says what happened, in a dialog and for whoever started the program from a terminal, and ends it. */
function endWithSentence(sentence: string, cause: unknown): void {
  log.write('ended', cause);
  process.stderr.write(`${sentence}\n`);
  void lastDuty()
    .catch(() => undefined)
    .then(() => app.whenReady())
    .then(() => dialog.showMessageBox({ type: 'error', title: 'Baybook', message: 'Baybook', detail: sentence }))
    .finally(() => app.exit(1));
}

function readVersion(): string {
  const facts: unknown = JSON.parse(readFileSync(join(app.getAppPath(), 'package.json'), 'utf8'));
  return typeof facts === 'object' && facts !== null && 'version' in facts ? String(facts.version) : 'unknown';
}
