import { app, dialog, powerMonitor, type BrowserWindow, type MessageBoxOptions } from 'electron';
import type { Book } from '../core/book/book.ts';
import { CloseGuard, type CloseAnswer } from './close-guard.ts';
import type { KeptFacts, WritesFacts } from './ipc/contract.ts';
import type { Dialogs } from './ipc/dialogs.ts';
import type { WriteRows } from './ipc/unwritten.ts';
import type { KeptInBook } from './kept-in-book.ts';
import { PageWinding } from './page-winding.ts';
import { changesInWords, troubleInWords, whoseInWords } from './unwritten-words.ts';

export interface LeavingOptions {
  readonly book: Book;
  readonly rows: WriteRows;
  readonly kept: KeptInBook;
  readonly dialogs: Dialogs;
}

/** Two signals that come within this many ms are one. */
const SAME_SIGNAL = 500;
/** In the order of the buttons. */
const ANSWERS: readonly CloseAnswer[] = ['again', 'elsewhere', 'drop', 'stay'];
const BUTTONS = ['Try again', 'Save somewhere else', 'Close without saving', 'Keep Baybook open'];

/** How the window closes: by the button, by quitting, with the session, by Ctrl+C; never before all is written. */
export class Leaving {
  readonly #options: LeavingOptions;
  readonly #page = new PageWinding();
  readonly #guard: CloseGuard;
  #window: BrowserWindow | null = null;
  /** Whoever asked by a signal is told in the terminal. */
  #bySignal = false;
  #signalAt = -Infinity;

  constructor(options: LeavingOptions) {
    this.#options = options;
    this.#guard = new CloseGuard({
      rows: options.rows,
      windUp: async () => (this.#window === null ? [] : this.#page.windUp(this.#window.webContents)),
      askUnfinished: (names) => this.#askUnfinished(names),
      rescue: () => options.kept.rescue(options.rows.unwritten),
      endRescue: () => options.kept.endRescue(),
      ask: (trouble) => this.#ask(trouble),
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
      app.quit();
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
    this.#bySignal = true;
    app.quit();
  }

  pageOpened(): WritesFacts {
    this.#page.pageOpened();
    const { edits, pattern, settings } = this.#options.rows;
    const waiting = {
      edits: edits.waiting.length,
      pattern: pattern.waiting.length,
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
    this.#bySignal = false;
    if (this.#window === null) return;
    if (this.#window.webContents.isCrashed()) this.#window.webContents.reload();
    else this.#page.stay(this.#window.webContents);
  }

  async #askUnfinished(names: readonly string[]): Promise<'close' | 'stay'> {
    const message = `“${names.join('”, “')}” is not finished.`;
    this.#tellTerminal(message);
    const { response } = await this.#show({
      ...{ type: 'warning', title: 'Baybook', message, detail: 'What you did in it is lost when Baybook closes now.' },
      ...{ buttons: ['Go back', 'Close without it'], defaultId: 0, cancelId: 0, noLink: true },
    });
    return response === 1 ? 'close' : 'stay';
  }

  #tellTerminal(message: string): void {
    if (!this.#bySignal) return;
    process.stderr.write(`${message} Baybook asks in its window; ending it once more closes without saving.\n`);
  }

  async #ask(trouble: unknown): Promise<CloseAnswer> {
    const { rows, book } = this.#options;
    const count = rows.count;
    const message = count === 1 ? '1 change is not saved yet.' : `${changesInWords(count)} are not saved yet.`;
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

  async #keepElsewhere(): Promise<boolean> {
    const { rows, kept, dialogs } = this.#options;
    const folder = await dialogs.chooseKeepingFolder();
    if (folder === null) return false;
    try {
      const told = await kept.keep(folder, rows.unwritten);
      await this.#show({ type: 'info', title: 'Baybook', message: 'Your changes are kept.', detail: told });
      return true;
    } catch (error) {
      const detail = `${troubleInWords(error)} Choose another folder.`;
      await this.#show({ type: 'warning', title: 'Baybook', message: 'Nothing was kept there.', detail });
      return false;
    }
  }

  async #show(options: MessageBoxOptions): Promise<{ readonly response: number }> {
    const window = this.#window;
    return window === null ? dialog.showMessageBox(options) : dialog.showMessageBox(window, options);
  }
}
