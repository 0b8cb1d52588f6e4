import { setTimeout } from 'node:timers/promises';
import { app, dialog, powerMonitor, type BrowserWindow, type MessageBoxOptions } from 'electron';
import { say } from '../core/model/say.ts';
import type { Book } from '../core/book/book.ts';
import { CloseGuard, type CloseAnswer, type CloseGuardOptions, type RunningAnswer } from './close-guard.ts';
import type { KeptFacts, WritesFacts } from './ipc/contract.ts';
import type { Dialogs } from './ipc/dialogs.ts';
import type { RunningJobs } from './ipc/running-jobs.ts';
import type { WriteRows } from './ipc/unwritten.ts';
import type { KeptInBook } from './kept-in-book.ts';
import { PageWinding } from './page-winding.ts';
import { changesInWords, troubleInWords, whoseInWords } from './unwritten-words.ts';

export interface LeavingOptions {
  readonly book: Book;
  readonly rows: WriteRows;
  readonly jobs: RunningJobs;
  readonly kept: KeptInBook;
  readonly dialogs: Dialogs;
}

/** How long a job may take to stop, ms. */
const STOPPING_LIMIT = 10_000;
/** Two signals that come within this many ms are one. */
const SAME_SIGNAL = 500;
/** In the order of the buttons. */
const ANSWERS: readonly CloseAnswer[] = ['again', 'elsewhere', 'drop', 'stay'];
const RUNNING_ANSWERS: readonly RunningAnswer[] = ['wait', 'stop', 'stay'];
const BUTTONS = [say`Try again`, say`Save somewhere else`, say`Close without saving`, say`Keep Baybook open`];

/** How the window closes: by the button, by quitting, with the session, by Ctrl+C; never before all is written. */
export class Leaving {
  readonly #options: LeavingOptions;
  readonly #page = new PageWinding();
  readonly #guard: CloseGuard;
  #window: BrowserWindow | null = null;
  /** It is ended by a signal or with the session: whoever does that is told in the terminal, and waits for no job. */
  #fromOutside = false;
  #signalAt = -Infinity;

  constructor(options: LeavingOptions) {
    this.#options = options;
    this.#guard = new CloseGuard({
      rows: options.rows,
      windUp: async () => (this.#window === null ? [] : this.#page.windUp(this.#window.webContents)),
      askUnfinished: (names) => this.#askUnfinished(names),
      jobs: this.#jobs(options.jobs),
      askRunning: (names, over) => this.#askRunning(names, over),
      rescue: () => options.kept.rescue(options.rows.unwritten),
      endRescue: () => options.kept.endRescue(),
      ask: (trouble) => this.#ask(trouble),
      tellRefused: (refusal) => this.#tellRefused(refusal),
      keepElsewhere: () => this.#keepElsewhere(),
      stay: () => this.#stay(),
      // Not close: that would ask the page, which may hang.
      close: () => this.#window?.destroy(),
    });
  }

  /** Watches over the program's window. */
  follow(window: BrowserWindow): void {
    this.#window = window;
    this.#page.follow(window.webContents);
    window.on('close', (event) => {
      if (this.#guard.mayClose) return;
      event.preventDefault();
      void this.#guard.leave();
    });
    window.on('closed', () => (this.#window = null));
    // Windows ends the session without waiting; what is here is written while it tells.
    window.on('session-end', () => void this.#options.rows.retryAll());
    // Elsewhere the system waits a little for whoever asks it to.
    powerMonitor.on('shutdown', (event?: { preventDefault(): void }) => {
      event?.preventDefault();
      this.#endFromOutside();
    });
  }

  /** A page that died is opened anew, but not while the window closes. */
  get isLeaving(): boolean {
    return this.#guard.isLeaving;
  }

  /** Somebody ends the program from outside. A second time, while the coach is asked, is an answer: close without saving. */
  onSignal(): void {
    const [now, before] = [performance.now(), this.#signalAt];
    this.#signalAt = now;
    // The same one, by way of another process that was sent it too.
    if (now - before < SAME_SIGNAL) return;
    if (this.#guard.isAsking) return this.#guard.insist();
    this.#endFromOutside();
  }

  #endFromOutside(): void {
    this.#fromOutside = true;
    app.quit();
  }

  pageOpened(): WritesFacts {
    this.#page.pageOpened();
    const { edits, goals, settings } = this.#options.rows;
    const waiting = {
      edits: edits.waiting.length,
      goals: goals.waiting.length,
      settings: settings.waiting.length,
    };
    return { waiting, kept: this.#options.kept.tell() };
  }

  woundUp(unfinished: readonly string[]): void {
    this.#page.woundUp(unfinished);
  }

  async takeInKept(choose: boolean): Promise<KeptFacts | null> {
    const { kept, dialogs } = this.#options;
    if (!choose) return kept.takeInNoted();
    const path = await dialogs.chooseKeptChanges();
    return path === null ? null : kept.takeIn(path);
  }

  #stay(): void {
    this.#fromOutside = false;
    if (this.#window === null) return;
    if (this.#window.webContents.isCrashed()) this.#window.webContents.reload();
    else this.#page.stay(this.#window.webContents);
  }

  async #askUnfinished(names: readonly string[]): Promise<'close' | 'stay'> {
    const message = say`“${names.join('”, “')}” is not finished.`;
    this.#tellTerminal(message);
    const { response } = await this.#show({
      ...{
        type: 'warning',
        title: 'Baybook',
        message,
        detail: say`What you did in it is lost when Baybook closes now.`,
      },
      ...{ buttons: [say`Go back`, say`Close without it`], defaultId: 0, cancelId: 0, noLink: true },
    });
    return response === 1 ? 'close' : 'stay';
  }

  /** A job that waits for a disk that does not answer is not waited for. */
  #jobs(jobs: RunningJobs): CloseGuardOptions['jobs'] {
    return {
      get names() {
        return jobs.names;
      },
      allEnded: () => jobs.allEnded(),
      cancelAll: () => Promise.race([jobs.cancelAll(), setTimeout(STOPPING_LIMIT, undefined, { ref: false })]),
    };
  }

  async #askRunning(names: readonly string[], over: AbortSignal): Promise<RunningAnswer> {
    if (this.#fromOutside) return 'stop';
    const { response } = await this.#show({
      type: 'question',
      signal: over,
      title: 'Baybook',
      message: say`Baybook is not done yet: ${names.join(', ')}.`,
      detail: say`What is stopped leaves nothing half done behind; it can be begun again another time.`,
      buttons: [say`Wait for it, then close`, say`Stop it and close`, say`Keep Baybook open`],
      ...{ defaultId: 0, cancelId: RUNNING_ANSWERS.indexOf('stay'), noLink: true },
    });
    return RUNNING_ANSWERS[response] ?? 'stay';
  }

  #tellTerminal(message: string): void {
    if (!this.#fromOutside) return;
    process.stderr.write(say`${message} Baybook asks in its window; ending it once more closes without saving.\n`);
  }

  async #ask(trouble: unknown): Promise<CloseAnswer> {
    const { rows, book } = this.#options;
    const count = rows.count;
    const message = count === 1 ? say`1 change is not saved yet.` : say`${changesInWords(count)} are not saved yet.`;
    const why = trouble === null ? '' : `\n\n${troubleInWords(trouble)}`;
    this.#tellTerminal(message);
    const { response } = await this.#show({
      type: 'warning',
      title: 'Baybook',
      message,
      detail: `${whoseInWords(book, rows.unwritten)}${why}`,
      buttons: BUTTONS,
      ...{ defaultId: 0, cancelId: ANSWERS.indexOf('stay'), noLink: true },
    });
    return ANSWERS[response] ?? 'stay';
  }

  async #tellRefused(refusal: unknown): Promise<void> {
    const message = say`A change that was not saved yet does not fit the book any more.`;
    if (this.#fromOutside) return void process.stderr.write(`${message}\n`);
    await this.#show({ type: 'info', title: 'Baybook', message, detail: troubleInWords(refusal) });
  }

  async #keepElsewhere(): Promise<boolean> {
    const { rows, kept, dialogs } = this.#options;
    const folder = await dialogs.chooseKeepingFolder();
    if (folder === null) return false;
    try {
      const told = await kept.keep(folder, rows.unwritten);
      await this.#show({ type: 'info', title: 'Baybook', message: say`Your changes are kept.`, detail: told });
      return true;
    } catch (error) {
      const detail = say`${troubleInWords(error)} Choose another folder.`;
      await this.#show({ type: 'warning', title: 'Baybook', message: say`Nothing was kept there.`, detail });
      return false;
    }
  }

  async #show(options: MessageBoxOptions): Promise<{ readonly response: number }> {
    const window = this.#window;
    return window === null ? dialog.showMessageBox(options) : dialog.showMessageBox(window, options);
  }
}
