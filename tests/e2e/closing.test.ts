import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { endOf, lostPresses, makeBookWithBall, pressAndEnd, readBall, takeBall } from './closing-session.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';

/** What can stand in the way of a close: a page that hangs or died, a dialog, impatience, another program at the book. */

const work = mkdtempSync(join(tmpdir(), 'baybook-closing-'));
const made = join(work, 'book');
beforeAll(() => makeBookWithBall(made));
afterAll(() => rmSync(work, { recursive: true, force: true }));

async function launched(): Promise<{ readonly baybook: RunningBaybook; readonly bookFolder: string }> {
  const bookFolder = join(temporaryFolder(), 'book');
  cpSync(made, bookFolder, { recursive: true });
  const baybook = await launchBaybook({ bookFolder });
  onTestFinished(() => baybook.close());
  return { baybook, bookFolder };
}

/** Asks the window to close; the program may be gone before it can answer. */
function closeWindow({ app }: RunningBaybook): Promise<void> {
  return app
    .evaluate(({ BrowserWindow }) => {
      for (const window of BrowserWindow.getAllWindows()) window.close();
    })
    .catch(() => undefined);
}

/** Holds the book as a backup program would: until it is let go of, nobody can write to it. */
function holdBook(bookFolder: string): () => void {
  const database = new Sqlite(join(bookFolder, 'book.sqlite'));
  database.exec('BEGIN IMMEDIATE');
  const release = (): void => {
    if (database.open) database.close();
  };
  onTestFinished(release);
  return release;
}

describe('a close', () => {
  it('is not held up for ever by a page that hangs, and what it had sent off is written', async () => {
    const { baybook, bookFolder } = await launched();
    await takeBall(baybook);
    const before = readBall(bookFolder);
    await pressAndEnd(baybook.app, 'none');
    await baybook.window.getByText('All saved').waitFor();
    await baybook.app.evaluate(({ BrowserWindow }) => {
      void BrowserWindow.getAllWindows()[0]?.webContents.executeJavaScript('for (;;);');
    });
    const ended = endOf(baybook.app);
    await closeWindow(baybook);
    expect(await ended).toBe(0);
    expect(lostPresses(before, readBall(bookFolder))).toBe(0);
  });

  it('asked for again and again, and by a signal in between, comes once and loses nothing', async () => {
    const { baybook, bookFolder } = await launched();
    await takeBall(baybook);
    const before = readBall(bookFolder);
    const ended = endOf(baybook.app);
    await pressAndEnd(baybook.app, 'close').catch(() => undefined);
    await closeWindow(baybook);
    baybook.app.process().kill('SIGTERM');
    await closeWindow(baybook);
    expect(await ended).toBe(0);
    expect(lostPresses(before, readBall(bookFolder))).toBe(0);
  });

  it('comes while a dialog of the system is open', async () => {
    const { baybook } = await launched();
    await baybook.app.evaluate(({ dialog }) => {
      dialog.showSaveDialog = () => new Promise(() => undefined);
    });
    await baybook.window.getByRole('button', { name: /^Goals/ }).click();
    await baybook.window.getByRole('button', { name: /^Export/ }).click();
    const ended = endOf(baybook.app);
    await closeWindow(baybook);
    expect(await ended).toBe(0);
  });

  it('keeps what is typed in a field that nobody has left yet', async () => {
    const { baybook, bookFolder } = await launched();
    const { window } = baybook;
    await window.getByRole('button', { name: /^Goals/ }).click();
    await window.getByLabel('Name', { exact: true }).fill('Typed at the last moment');
    const ended = endOf(baybook.app);
    await closeWindow(baybook);
    expect(await ended).toBe(0);
    const database = new Sqlite(join(bookFolder, 'book.sqlite'), { readonly: true });
    onTestFinished(() => void database.close());
    expect(JSON.stringify(database.prepare('SELECT content FROM pattern').all())).toContain('Typed at the last moment');
  });
});

describe('a form that is filled in', () => {
  it('is asked about, and still there with all that was typed when the coach goes back', async () => {
    const { baybook } = await launched();
    const { app, window } = baybook;
    await window.getByRole('button', { name: 'Add a lesson' }).click();
    await window.getByLabel('Note (for yourself)').fill('Ball first, then the mat.');
    await app.evaluate(({ dialog }) => {
      const asked: string[] = [];
      Object.assign(globalThis, { asked });
      dialog.showMessageBox = (...given: unknown[]) => {
        const { message } = given.at(-1) as { readonly message: string };
        asked.push(message);
        return Promise.resolve({ response: asked.length === 1 ? 0 : 1, checkboxChecked: false });
      };
    });
    const ended = endOf(app);
    await closeWindow(baybook);
    const questions = (): Promise<readonly string[]> =>
      app.evaluate(() => (globalThis as unknown as { asked: string[] }).asked);
    await expect.poll(questions, { timeout: 20_000 }).toEqual(['“Add a lesson” is not finished.']);
    expect(await window.getByLabel('Note (for yourself)').inputValue()).toBe('Ball first, then the mat.');
    await window.getByLabel('Note (for yourself)').press('End');
    await window.keyboard.type(' Again.');
    await expect
      .poll(() => window.getByLabel('Note (for yourself)').inputValue())
      .toBe('Ball first, then the mat. Again.');
    await closeWindow(baybook);
    expect(await ended).toBe(0);
  });
});

describe('something that is still being done', () => {
  async function makingDemo(): Promise<{ readonly baybook: RunningBaybook; readonly bookFolder: string }> {
    const bookFolder = join(temporaryFolder(), 'book');
    const baybook = await launchBaybook({ bookFolder });
    onTestFinished(() => baybook.close());
    await baybook.window.getByRole('button', { name: 'Look at a made-up student' }).click();
    await baybook.window.getByRole('progressbar').waitFor();
    return { baybook, bookFolder };
  }
  const mediaOf = (bookFolder: string): readonly string[] =>
    readdirSync(join(bookFolder, 'media'), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ name }) => name);

  it('is asked about and goes on where Baybook stays open; stopped, it leaves no file behind', async () => {
    const { baybook, bookFolder } = await makingDemo();
    const { app, window } = baybook;
    await app.evaluate(({ dialog }) => {
      const asked: unknown[] = [];
      Object.assign(globalThis, { asked });
      dialog.showMessageBox = (...given: unknown[]) => {
        const { message, buttons = [] } = given.at(-1) as { readonly message: string; readonly buttons?: string[] };
        asked.push({ message, buttons });
        const answer = asked.length === 1 ? 'Keep Baybook open' : 'Stop it and close';
        return Promise.resolve({ response: buttons.indexOf(answer), checkboxChecked: false });
      };
    });
    const ended = endOf(app);
    await closeWindow(baybook);
    const questions = (): Promise<unknown> => app.evaluate(() => (globalThis as unknown as { asked: unknown }).asked);
    const buttons = ['Wait for it, then close', 'Stop it and close', 'Keep Baybook open'];
    await expect
      .poll(questions, { timeout: 20_000 })
      .toEqual([{ message: 'Baybook is not done yet: Making the demo book.', buttons }]);
    expect(await window.getByRole('progressbar').count()).toBe(1);
    await closeWindow(baybook);
    expect(await ended).toBe(0);
    expect(mediaOf(bookFolder)).toEqual([]);
  });

  it('is stopped without a question where a signal ends the program', async () => {
    const { baybook, bookFolder } = await makingDemo();
    const ended = endOf(baybook.app);
    baybook.app.process().kill('SIGTERM');
    expect(await ended).toBe(0);
    expect(mediaOf(bookFolder)).toEqual([]);
  });
});

describe('changes that wait because another program holds the book', () => {
  it('outlive a page that dies, are told of by the next, and are all written once they can be', async () => {
    const { baybook, bookFolder } = await launched();
    const { window } = baybook;
    await takeBall(baybook);
    const before = readBall(bookFolder);
    const letGo = holdBook(bookFolder);
    await pressAndEnd(baybook.app, 'none');
    await window.getByText('Not saved', { exact: true }).waitFor();
    await baybook.app.evaluate(async ({ BrowserWindow }) => {
      const contents = BrowserWindow.getAllWindows()[0]?.webContents;
      const loaded = new Promise<void>((resolve) => contents?.once('did-finish-load', () => resolve()));
      contents?.forcefullyCrashRenderer();
      await loaded;
    });
    const told = (): Promise<string> =>
      baybook.app.evaluate(
        ({ BrowserWindow }) =>
          BrowserWindow.getAllWindows()[0]?.webContents.executeJavaScript('document.body.innerText') as Promise<string>,
      );
    await expect.poll(told, { timeout: 20_000 }).toContain('16 changes are not saved yet.');
    letGo();
    const ended = endOf(baybook.app);
    await closeWindow(baybook);
    expect(await ended).toBe(0);
    expect(lostPresses(before, readBall(bookFolder))).toBe(0);
  });
});
