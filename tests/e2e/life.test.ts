import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openBook } from '../../core/book/open-book.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import {
  chooseElectronEnvironment,
  chooseElectronOptions,
  readMachine,
} from '../../electron/runtime/launch-options.ts';
import { takeElectron } from '../../electron/runtime/take-electron.ts';
import { makeGreyClip } from '../support/grey-clip.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { openVirtualScreen } from '../support/virtual-screen.ts';
import { launchBaybook, type LaunchOptions, type RunningBaybook } from './launch.ts';
import { ask, handOver } from './page-hands.ts';
import { nameFrame, writeMarks } from './write-edits.ts';

/** How the program begins and ends: twice at once, on a book it cannot open, in the middle of work, killed. */

const PROJECT = join(import.meta.dirname, '..', '..');

async function launched(options: LaunchOptions): Promise<RunningBaybook> {
  const baybook = await launchBaybook(options);
  onTestFinished(() => baybook.close());
  return baybook;
}

interface Started {
  readonly process: ChildProcess;
  /** What it has written to standard error, Chromium's own remarks included. */
  readonly said: () => string;
  /** Its exit code, or null when a signal ended it. */
  readonly ended: Promise<number | null>;
}

/** Starts the built program as a person would, with nobody attached to it; ended with the test. */
async function startedAlone(bookFolder: string, userData: string): Promise<Started> {
  const electron = await takeElectron(PROJECT, () => undefined);
  const screen = process.platform === 'linux' && !process.env['DISPLAY'] ? await openVirtualScreen(1400, 900) : null;
  const child = spawn(electron.executable, [...chooseElectronOptions(readMachine()), PROJECT], {
    env: {
      ...chooseElectronEnvironment(electron, process.env),
      ...(screen === null ? {} : { DISPLAY: screen.display }),
      ...{ BAYBOOK_BOOK: bookFolder, BAYBOOK_USER_DATA: userData, DBUS_SESSION_BUS_ADDRESS: 'disabled:' },
    },
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let said = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => (said += text));
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  onTestFinished(async () => {
    child.kill('SIGKILL');
    await ended;
    await screen?.close();
  });
  return { process: child, said: () => said, ended };
}

async function addSwing(baybook: RunningBaybook): Promise<string> {
  const page = baybook.window;
  const student = await ask(page, 'student/add', { firstName: 'Robin', lastName: 'Marsh', handedness: 'right' });
  const facts = { studentId: student.id, date: '2026-05-12', club: '7 iron', handedness: 'right', note: '' } as const;
  const lesson = await ask(page, 'lesson/add', facts);
  return (await ask(page, 'swing/add', { lessonId: lesson.id, label: 'Swing 1' })).id;
}

async function addClip(baybook: RunningBaybook, swingId: string): Promise<string> {
  const path = join(temporaryFolder(), 'swing.mp4');
  await makeGreyClip({ ffmpeg: await findFfmpeg(), out: path, frames: 12 });
  await handOver(baybook.window, path);
  const order = { jobId: 'import', swingId, view: 'face-on', path, stored: 'copied', span: null } as const;
  return (await ask(baybook.window, 'clip/import', order)).id;
}

function integrityOf(bookFolder: string): unknown {
  const database = new Sqlite(join(bookFolder, 'book.sqlite'), { readonly: true });
  try {
    return database.pragma('integrity_check', { simple: true });
  } finally {
    database.close();
  }
}

describe('a second start', () => {
  it('leaves the first one working: ends by itself with the same settings, with others says that the book is open', async () => {
    const first = await launched({});
    const second = await startedAlone(first.bookFolder, first.userData);
    expect(await second.ended).toBe(0);
    expect(second.said()).not.toContain('Error');
    expect(await ask(first.window, 'student/list', null)).toEqual([]);

    const other = await startedAlone(first.bookFolder, temporaryFolder());
    await expect.poll(other.said, { timeout: 20_000 }).toContain('already open in another Baybook');
    expect(other.said()).not.toMatch(/^\s+at /m);
    expect(await ask(first.window, 'student/list', null)).toEqual([]);
  });
});

describe('a book that cannot be opened', () => {
  it('is named in one sentence, left as it was, and no window opens', async () => {
    const bookFolder = temporaryFolder();
    const userData = temporaryFolder();
    const content = 'This is a shopping list, not a book.\n'.repeat(200);
    writeFileSync(join(bookFolder, 'book.sqlite'), content);
    const started = await startedAlone(bookFolder, userData);
    await expect.poll(started.said, { timeout: 20_000 }).toContain('is damaged or is not a book');
    expect(started.said()).not.toMatch(/^\s+at /m);
    expect(readFileSync(join(bookFolder, 'book.sqlite'), 'utf8')).toBe(content);
    // The causes are for a bug report.
    expect(readFileSync(join(userData, 'faults.log'), 'utf8')).toContain('book.sqlite');
  });
});

describe('a page that crashed', () => {
  it('is opened anew', async () => {
    const { app } = await launched({});
    const isBack = await app.evaluate(async ({ BrowserWindow }) => {
      const contents = BrowserWindow.getAllWindows()[0]?.webContents;
      const loaded = new Promise<void>((resolve) => contents?.once('did-finish-load', () => resolve()));
      contents?.forcefullyCrashRenderer();
      await loaded;
      return contents?.executeJavaScript('"baybook" in window') as unknown;
    });
    expect(isBack).toBe(true);
  });
});

describe('the end', () => {
  it('comes when the system asks for it', async () => {
    const bookFolder = temporaryFolder();
    const started = await startedAlone(bookFolder, temporaryFolder());
    await expect.poll(() => existsSync(join(bookFolder, 'book.sqlite')), { timeout: 20_000 }).toBe(true);
    await new Promise((resolve) => setTimeout(resolve, 1500));
    started.process.kill('SIGTERM');
    expect(await started.ended).toBe(0);
    openBook(bookFolder).close();
  });

  it('comes at once, by itself, and gives the book free', async () => {
    const bookFolder = temporaryFolder();
    const baybook = await launched({ bookFolder });
    const swingId = await addSwing(baybook);
    await addClip(baybook, swingId);
    const ended = new Promise((resolve) => {
      baybook.app.process().once('exit', (code, signal) => resolve({ code, signal }));
    });
    await baybook.close();
    expect(await ended).toEqual({ code: 0, signal: null });
    openBook(bookFolder).close();
  });

  it('in the middle of an import cancels it, and nothing of it stays; the window opens as it stood', async () => {
    const bookFolder = temporaryFolder();
    const userData = temporaryFolder();
    const baybook = await launched({ bookFolder, userData, width: 1180, height: 700 });
    const swingId = await addSwing(baybook);
    const path = join(temporaryFolder(), 'swing.mp4');
    await makeGreyClip({ ffmpeg: await findFfmpeg(), out: path, frames: 28, width: 1920, height: 1080 });
    await handOver(baybook.window, path);
    await baybook.window.evaluate(
      async (order) => {
        const started = new Promise<void>((resolve) => void window.baybook.onJobReport(() => resolve()));
        void window.baybook.request('clip/import', order);
        await started;
      },
      { jobId: 'import', swingId, view: 'face-on', path, stored: 'copied', span: null } as const,
    );
    // Closing asks what becomes of it.
    await baybook.app.evaluate(({ dialog }) => {
      dialog.showMessageBox = (...given: unknown[]) => {
        const { buttons = [] } = given.at(-1) as { readonly buttons?: string[] };
        return Promise.resolve({ response: buttons.indexOf('Stop it and close'), checkboxChecked: false });
      };
    });
    const ended = new Promise((resolve) => baybook.app.process().once('exit', resolve));
    await baybook.close();
    expect(await ended).toBe(0);
    expect(integrityOf(bookFolder)).toBe('ok');
    expect(readdirSync(join(bookFolder, 'media'))).toEqual([]);
    const again = await launched({ bookFolder, userData, asItOpens: true });
    expect((await ask(again.window, 'swing/open', { id: swingId })).clips).toEqual([]);
    // And the window stands where it stood.
    expect(await again.window.evaluate(() => [innerWidth, innerHeight, screenX, screenY])).toEqual([1180, 700, 0, 0]);
  });

  it('by a kill loses nothing that was saved', async () => {
    const bookFolder = temporaryFolder();
    const baybook = await launched({ bookFolder });
    const swingId = await addSwing(baybook);
    const clipId = await addClip(baybook, swingId);
    const [, frame] = (await ask(baybook.window, 'clip/index', { id: clipId })).frames;
    const marks = {
      frame: { index: 1, pts: frame?.pts ?? -1 },
      points: { ball: { x: 100.0625, y: 1 / 3, hidden: true } },
      shapes: [],
    };
    await writeMarks(baybook.window, { id: clipId, swingId }, marks);
    await nameFrame(baybook.window, { id: clipId, swingId }, 'top', { ...marks.frame, ticks: 1 });
    const killed = new Promise((resolve) => baybook.app.process().once('exit', resolve));
    baybook.app.process().kill('SIGKILL');
    await killed;
    await baybook.close();

    expect(integrityOf(bookFolder)).toBe('ok');
    const again = await launched({ bookFolder });
    const [clip] = (await ask(again.window, 'swing/open', { id: swingId })).clips;
    expect(clip?.marks).toEqual([marks]);
    expect(clip?.checkpoints.top).toMatchObject(marks.frame);
  });
});
