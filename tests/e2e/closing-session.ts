import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import type { ElectronApplication } from 'playwright-core';
import { openBook } from '../../core/book/open-book.ts';
import { importClip } from '../../core/jobs/import-clip.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { makeGreyClip } from '../support/grey-clip.ts';
import { placeOnScreen } from './demo-program.ts';
import type { RunningBaybook } from './launch.ts';
import { ask } from './page-hands.ts';

/** A ball that is moved by keys on the bench while the program is ended, and what an independent reader finds in the book. */

/** Where the ball lies at first: far enough from every edge for all that follows. */
const AT = { x: 60, y: 120 };
const FRAME = 2;

/** One round of presses: so many times four steps to the right and one change of "hidden". */
export const GROUPS = 8;
export const NUDGES_A_GROUP = 4;
export const PRESSES = GROUPS * (NUDGES_A_GROUP + 1);

/** Makes a book with one clip and one ball. */
export async function makeBookWithBall(folder: string): Promise<void> {
  const work = mkdtempSync(join(tmpdir(), 'baybook-closing-clip-'));
  try {
    const ffmpeg = await findFfmpeg();
    const path = join(work, 'swing.mp4');
    await makeGreyClip({ ffmpeg, out: path, frames: 6 });
    const book = openBook(folder);
    const student = book.addStudent({ firstName: 'Robin', lastName: 'Marsh', handedness: 'right' });
    const facts = { studentId: student.id, date: '2026-05-12', club: '7 iron', handedness: 'right', note: '' } as const;
    const swing = book.addSwing({ lessonId: book.addLesson(facts).id, label: 'Swing 1' });
    const order = { swingId: swing.id, view: 'face-on', path, stored: 'copied', span: null } as const;
    const clip = await importClip(book, order, ffmpeg, UNWATCHED);
    const frame = { index: FRAME, pts: book.clipIndex(clip.id).frames[FRAME]?.pts ?? -1 };
    book.saveMarks(clip.id, { frame, points: { ball: { ...AT, hidden: false } }, shapes: [] });
    book.close();
  } finally {
    rmSync(work, { recursive: true });
  }
}

/** Brings the ball to the bench and takes it. */
export async function takeBall({ window }: RunningBaybook): Promise<void> {
  window.setDefaultTimeout(60_000);
  await window
    .getByRole('button', { name: /^Swing 1/ })
    .first()
    .click();
  await window.getByRole('button', { name: /^Open clip/ }).click();
  await window.getByText('Exact picture').waitFor();
  await window.keyboard.press('Home');
  for (let step = 0; step < FRAME; step += 1) await window.keyboard.press('ArrowRight');
  await window.locator(`canvas[data-shown="${String(FRAME)}"][data-quality="sharp"]`).waitFor();
  const { x, y } = await ballInBook(window);
  const place = await placeOnScreen(window, { x, y });
  await window.mouse.click(place.x, place.y);
  await window.getByRole('heading', { name: 'Ball' }).waitFor();
}

async function ballInBook(window: RunningBaybook['window']): Promise<{ readonly x: number; readonly y: number }> {
  const [student] = await ask(window, 'student/list', null);
  const { clips } = await ask(window, 'swing/open', { id: student?.lessons[0]?.swings[0]?.swing.id ?? '' });
  const ball = clips[0]?.marks[0]?.points.ball;
  if (ball === undefined) throw new Error('the book has no ball');
  return ball;
}

/** How the program is ended right after the last press. */
export type End = 'close' | 'quit' | 'SIGTERM' | 'SIGINT' | 'SIGHUP' | 'none';

/** All presses of a round, as the system would send them, and the end behind them, with nothing waited for between. */
export function pressAndEnd(app: ElectronApplication, end: End): Promise<void> {
  return app.evaluate(
    ({ app: electron, BrowserWindow }, { groups, nudges, end }) => {
      const [window] = BrowserWindow.getAllWindows();
      if (window === undefined) throw new Error('there is no window');
      const press = (keyCode: string, ...modifiers: 'control'[]): void => {
        window.webContents.sendInputEvent({ type: 'keyDown', keyCode, modifiers });
        window.webContents.sendInputEvent({ type: 'keyUp', keyCode, modifiers });
      };
      for (let group = 0; group < groups; group += 1) {
        for (let nudge = 0; nudge < nudges; nudge += 1) press('Right', 'control');
        press('H');
      }
      if (end === 'close') window.close();
      else if (end === 'quit') electron.quit();
      else if (end !== 'none') process.kill(process.pid, end);
    },
    { groups: GROUPS, nudges: NUDGES_A_GROUP, end },
  );
}

export interface BallInBook {
  readonly x: number;
  /** Edits of the lesson that can be taken back. */
  readonly edits: number;
}

/** What SQLite itself finds in a book that nobody has open. */
export function readBall(folder: string): BallInBook {
  const database = new Sqlite(join(folder, 'book.sqlite'), { readonly: true });
  try {
    const ball = database.prepare(`SELECT x FROM placed_point WHERE body_point = 'ball'`).get();
    const edits = database.prepare('SELECT count(*) AS count FROM edit WHERE undone = 0').get();
    return { x: numberIn(ball, 'x'), edits: numberIn(edits, 'count') };
  } finally {
    database.close();
  }
}

function numberIn(row: unknown, column: string): number {
  const cells = new Map(Object.entries(Object(row) as object));
  const cell = cells.get(column);
  if (typeof cell !== 'number') throw new Error(`the book has no ${column}`);
  return cell;
}

/** How many presses of a round are missing in the book: steps of the ball, and edits (a row of steps is one, "hidden" another). */
export function lostPresses(before: BallInBook, after: BallInBook): number {
  const steps = Math.abs(before.x + GROUPS * NUDGES_A_GROUP - after.x);
  const edits = Math.abs(before.edits + 2 * GROUPS - after.edits);
  return Math.round(steps) + edits;
}

/** Two loops that take all of two cores, until they are stopped. */
export function loadMachine(): () => void {
  const loops = [0, 1].map(() => spawn(process.execPath, ['-e', 'for (;;);'], { stdio: 'ignore' }));
  return () => {
    for (const loop of loops) loop.kill('SIGKILL');
  };
}

/** Resolves when the program has ended by itself, with its exit code; -1 when it does not within the time, ms. */
export function endOf(app: ElectronApplication, limit = 60_000): Promise<number> {
  const process = app.process();
  if (process.exitCode !== null) return Promise.resolve(process.exitCode);
  return new Promise((resolve) => {
    const timer = setTimeout(() => resolve(-1), limit);
    process.once('exit', (code) => {
      clearTimeout(timer);
      resolve(code ?? -2);
    });
  });
}
